#include "core/program/word_offers.h"

#include <algorithm>

#include "core/program/global_options.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

using Words = std::vector<std::string>;

// "[JOB...]" is JOB; "ATTRIBUTE=VALUE..." is ATTRIBUTE, of an assignment.
struct Wanted {
    std::string name;
    bool assigned{}, repeats{};
};

Wanted wanted(std::string word) {
    std::erase_if(word, [](char c) { return c == '[' || c == ']'; });
    Wanted one;
    one.repeats = word.ends_with("...");
    if (one.repeats) word.resize(word.size() - 3);
    one.assigned = word.find('=') != std::string::npos;
    one.name = word.substr(0, word.find('='));
    return one;
}

Words split(std::string_view text) {
    Words words;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find(' ', at), text.size());
        if (end > at) words.emplace_back(text.substr(at, end - at));
        at = end + 1;
    }
    return words;
}

// The `nth` word that a command takes, counted from 0; the last repeats where it says so.
Wanted word_at(const Command& command, std::size_t nth) {
    const auto words = split(command.words);
    if (nth < words.size()) return wanted(words[nth]);
    const auto last = words.empty() ? Wanted{} : wanted(words.back());
    return last.repeats ? last : Wanted{};
}

const OptionSpec* option_named(const Command* command, std::string_view word) {
    static const auto globals = global_options();
    if (command)
        for (const auto& one : command->options)
            if (word == "--" + one.name) return &one;
    for (const auto& one : globals)
        if (word == "--" + one.spec.name) return &one.spec;
    return nullptr;
}

class Offers {
public:
    Offers(Session& session, const Command& command) : session_(session), command_(command) {}

    std::vector<Offered> of(const Wanted& one) {
        for (const auto& list : command_.lists)
            if (list.name == one.name)
                for (const auto& word : list.words) add(word, "", one.assigned);
        if (one.name == "VEHICLE")
            for (const auto& vehicle : ShopVehicles(session_.shop()).all()) add(vehicle.name, vehicle.line);
        if (one.name == "JOB" || one.name == "UNIT-JOB") rows("jobs", "job");
        if (one.name == "ITEM" || one.name == "PART" || one.name == "WANTED" || one.name == "OFFERED")
            rows("items", "item"), rows("groups", "group_key");
        const auto& words = session_.catalog().vocabularies();
        if (one.name == "PLACE")
            for (const auto& [key, role] : words.roles()) add(key, role.word.title);
        if (one.name == "ATTRIBUTE")
            for (const auto& [key, attribute] : words.attributes()) add(key, attribute.word.title, one.assigned);
        return std::move(offered_);
    }

private:
    void add(const std::string& word, const std::string& what, bool assigned = false) {
        offered_.push_back({assigned ? word + "=" : word, what});
    }

    void rows(std::string_view table, std::string_view key) {
        for (const auto& row : session_.catalog().facts().rows(table))
            add(std::string(row.text(key)), std::string(row.text("title")));
    }

    Session& session_;
    const Command& command_;
    std::vector<Offered> offered_;
};

// The command, and how many of `typed` are its own name.
const Command* command_in(const std::vector<Command>& table, const Words& plain, std::size_t& taken) {
    for (const auto& command : table) {
        const auto names = split(command.name);
        if (plain.size() >= names.size() && std::equal(names.begin(), names.end(), plain.begin())) {
            taken = names.size();
            return &command;
        }
    }
    return nullptr;
}

}  // namespace

std::vector<Offered> offered_next(Session& session, const std::vector<Command>& table, const Words& typed) {
    Words plain;
    for (std::size_t i = 0; i < typed.size(); ++i) {
        if (typed[i].rfind("--", 0) != 0) {
            plain.push_back(typed[i]);
            continue;
        }
        std::size_t ignored = 0;
        const auto* option = option_named(command_in(table, plain, ignored), typed[i]);
        if (option && !option->value.empty() && i + 1 < typed.size()) ++i;
    }
    std::size_t taken = 0;
    const auto* command = command_in(table, plain, taken);
    if (!command) return {};
    const auto* option = typed.empty() ? nullptr : option_named(command, typed.back());
    if (option && !option->values.empty()) {
        std::vector<Offered> values;
        for (const auto& value : option->values) values.push_back({value, ""});
        return values;
    }
    Offers offers(session, *command);
    if (option && !option->value.empty()) return offers.of(wanted(option->value));
    return offers.of(word_at(*command, plain.size() - taken));
}

}  // namespace casebound
