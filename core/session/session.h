// What one run of the program works with: its options, and the catalog, plugins and shop, opened when first
// asked for. Results go out through `Result`, messages through outlet.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "core/ground/error.h"
#include "core/host/plugin_host.h"
#include "core/reason/reasoner.h"
#include "core/session/situation.h"
#include "core/shop/shop_vehicles.h"
#include "core/verdict/catalog.h"

namespace casebound {

// A command's words as typed: positionals in order, options by name ("evidence" -> values).
struct Args {
    std::vector<std::string> words;
    std::map<std::string, std::vector<std::string>, std::less<>> options;
    bool has(std::string_view option) const { return options.find(option) != options.end(); }
    std::string option(std::string_view name, std::string fallback = {}) const {
        const auto found = options.find(name);
        return found == options.end() || found->second.empty() ? std::move(fallback) : found->second.front();
    }
    std::vector<std::string> all(std::string_view name) const {
        const auto found = options.find(name);
        return found == options.end() ? std::vector<std::string>{} : found->second;
    }
};

struct Result {
    Exit exit = Exit::yes;
    std::string output;  // text or JSON, whole
};

class Session {
public:
    struct Options {
        std::string catalog, shop, probed;
        std::vector<std::string> plugin_folders;
        bool json{}, full{};
        ReservedNames reserved{};    // no domain may have these
        std::string colour{"auto"};  // or always, never
        bool keys{}, pager{true};    // keys beside titles; long answers through a pager, at a terminal
    };
    explicit Session(Options options);
    ~Session();
    Session(const Session&) = delete;
    Session& operator=(const Session&) = delete;

    const Options& options() const { return options_; }
    bool json() const { return options_.json; }
    bool full() const { return options_.full; }
    const Plugins& plugins();  // refused ones are said once, as messages
    const Catalog& catalog();
    void close_catalog() { catalog_.reset(); }  // before a pack is loaded; nothing may still refer to it
    // For a session that lives long: a catalog or a shop file that another process has changed meanwhile, written over
    // or put another in the place of, is opened anew when next asked for. Nothing may still refer to it. Throws Error(no_input)
    // when the shop file is gone: what is told from then on would be lost.
    void refresh();
    // Of which catalog and shop it answers, and of which moment of them: the same text only while neither has been written
    // to or opened anew, in any session of this process. Nothing while one of them is not open.
    std::optional<std::string> moment();
    // Between two requests nothing of this session keeps other processes from writing.
    void rest();
    void wait_at_most(int ms) { wait_ms_ = ms; }  // for another process that writes to the shop; before it is opened
    Database& shop();                             // the shop file, open
    const Engine& engine() const { return engine_; }
    Vehicle vehicle(std::string_view name);  // throws Error(usage) with a near miss
    std::unique_ptr<Situation> situation(std::string_view vehicle);
    // As if the doubts named were settled: each DOUBT=VALUE, the attribute in doubt and one of the values that may be
    // true. Throws Error(usage) naming what is in doubt, and the values.
    std::unique_ptr<Situation> situation(std::string_view vehicle, const std::vector<std::string>& accepted);
    // Today's catalog has another vocabulary than the loaded domains: roles of domains that are missing.
    std::vector<std::string> missing_domains();

private:
    struct FileSeen {
        std::uint64_t device{}, inode{}, bytes{};
        std::int64_t changed_ns{};
        bool operator==(const FileSeen&) const = default;
    };
    static FileSeen seen(const std::string& path);
    Options options_;
    Engine engine_;
    std::optional<Plugins> plugins_;
    std::unique_ptr<Catalog> catalog_;
    FileSeen catalog_seen_;                             // before it was opened
    FileSeen shop_seen_;                                // after it was opened
    std::uint64_t catalog_opening_{}, shop_opening_{};  // of all openings in this process, from 1 on
    std::optional<Database> shop_;
    std::optional<int> wait_ms_;
};

// {"schema":"casebound.<name>/1", ...} as text.
std::string json_text(const nlohmann::ordered_json& document);

}  // namespace casebound
