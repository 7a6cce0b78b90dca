// A whole pack, from its files to the list of every job on a vehicle of every line: what is loaded is answered from, with
// nothing thrown but an Error. An input is CSV files one after another, each below a line "== applications.csv".
#include <array>

#include "core/ground/error.h"
#include "core/program/typed_words.h"
#include "core/session/command.h"
#include "tests/fuzz/target.h"

using namespace casebound;

namespace {

constexpr std::string_view mark = "== ";
constexpr std::size_t most_asked = 3;

const fuzz::Folder& folder() {
    static const fuzz::Folder made;
    return made;
}

bool is_plain(std::string_view name) {
    return !name.empty() && name.size() < 60 &&
           name.find_first_not_of("abcdefghijklmnopqrstuvwxyz_.") == std::string_view::npos;
}

void write_files(std::string_view text) {
    std::filesystem::create_directories(folder().fresh("world"));
    for (auto at = text.find(mark); at != std::string_view::npos;) {
        const auto end = std::min(text.find('\n', at), text.size());
        const auto next = text.find(std::string("\n").append(mark), end);
        const auto name = text.substr(at + mark.size(), end - at - mark.size());
        if (is_plain(name) && end < text.size())
            folder().write("world/" + std::string(name),
                           text.substr(end + 1, next == std::string_view::npos ? next : next - end));
        at = next == std::string_view::npos ? next : next + 1;
    }
}

Session::Options home() {
    Session::Options options;
    std::filesystem::create_directories(folder().fresh("home"));
    options.catalog = folder().file("home/catalog.sqlite");
    options.shop = folder().file("home/shop.sqlite");
    options.probed = folder().file("probed");
    options.plugin_folders = {CASEBOUND_BINARY_DIR "/plugins"};
    return options;
}

class Typist {
public:
    bool types(const std::vector<std::string>& words) {
        try {
            static const auto table = commands();
            auto options = session_.options();
            const auto typed = typed_command(words, table, options);
            const auto result = typed.command->run(session_, typed.args);
            fuzz::promised(!result.output.empty(), "an answer says something");
            return true;
        } catch (const Error& error) {
            fuzz::promised(error.exit() != Exit::bug, "nothing that should not happen has happened");
            return false;
        }
    }
    std::vector<std::string> keys(const char* table, const char* column) {
        std::vector<std::string> all;
        for (const auto& row : session_.catalog().facts().rows(table))
            if (all.size() < most_asked) all.emplace_back(row.text(column));
        return all;
    }

private:
    Session session_{home()};
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    write_files(fuzz::text_of(data, size));
    Typist typist;
    typist.types({"pack", "new", folder().file("world")});
    if (!typist.types({"pack", "load", folder().file("world")})) return 0;
    int count = 0;
    for (const auto& line : typist.keys("lines", "line")) {
        const auto vehicle = "van" + std::to_string(++count);
        if (!typist.types({"vehicle", "new", vehicle, line})) continue;
        typist.types({"fits", vehicle});
        for (const auto& job : typist.keys("jobs", "job"))
            for (const char* asked : {"list", "ask", "buy"}) typist.types({asked, vehicle, job});
    }
    return 0;
}
