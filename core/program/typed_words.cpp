#include "core/program/typed_words.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <CLI/CLI.hpp>

#include "core/ground/error.h"
#include "core/program/help.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

using Words = std::vector<std::string>;

const std::vector<GlobalOption>& globals() {
    static const auto all = global_options();
    return all;
}

// "-", and a number below zero, are no options.
bool is_option(std::string_view word) {
    return word.size() > 1 && word[0] == '-' && word[1] != '.' && (word[1] < '0' || word[1] > '9');
}

bool is_long_option(std::string_view word) { return word.rfind("--", 0) == 0; }

const OptionSpec* named(const std::vector<const OptionSpec*>& options, std::string_view word) {
    const auto name = word.substr(0, word.find('='));
    const auto at = std::find_if(options.begin(), options.end(),
                                 [&](const OptionSpec* one) { return name == "--" + one->name; });
    return at == options.end() ? nullptr : *at;
}

std::vector<const OptionSpec*> global_specs() {
    std::vector<const OptionSpec*> specs;
    for (const auto& one : globals()) specs.push_back(&one.spec);
    return specs;
}

// Where `--` stands alone: behind it nothing is an option.
Words::const_iterator end_of_options(const Words& words) { return std::find(words.begin(), words.end(), "--"); }

// What one option was given: how often a flag stands, or its values.
struct Given {
    std::int64_t times = 0;
    Words values;
};

void declare(CLI::App& app, const OptionSpec& spec, Given& given) {
    if (spec.value.empty()) app.add_flag("--" + spec.name, given.times)->disable_flag_override();
    else app.add_option("--" + spec.name, given.values)->expected(1)->allow_extra_args(false)->take_all();
}

// Every refusal says where: the command, or the program itself.
class Reader {
public:
    explicit Reader(const std::vector<const Command*>& branch) : branch_(branch) {
        root_.set_help_flag();
        root_.allow_extras()->require_subcommand(0, 1);
        root_.fallthrough();
        for (const auto& one : globals()) declare(root_, one.spec, given_[one.spec.name]);
        for (const auto* command : branch_) add(*command);
    }

    // The command, or null when only a group was named, or none; words of no command are left in `rest`.
    const Command* read(const Words& words) {
        const auto end = end_of_options(words);
        Words reversed(std::make_reverse_iterator(end), std::make_reverse_iterator(words.begin()));
        try {
            root_.parse(reversed);
        } catch (const CLI::ArgumentMismatch&) {
            refuse_mismatch({words.begin(), end});
        } catch (const CLI::ParseError& error) { refuse(error.what()); }
        rest_ = root_.remaining(true);
        for (const auto& word : rest_)
            if (is_option(word)) refuse_option(word);
        if (end != words.end()) typed_.insert(typed_.end(), end + 1, words.end());
        return command_;
    }

    const Words& typed() const { return typed_; }
    const Words& rest() const { return rest_; }

    // What was given to the options of `command`, and to those of every command.
    Args args(Session::Options& options) {
        for (const auto& one : globals()) {
            const auto& given = given_[one.spec.name];
            if (given.values.size() > 1 && !one.spec.many)
                refuse(fmt::format("--{}: given twice: give it once", one.spec.name));
            for (std::int64_t i = 0; i < given.times; ++i) one.set(options, "");
            for (const auto& value : given.values) one.set(options, checked(one.spec, value));
        }
        Args args{typed_, {}};
        for (const auto& spec : command_ ? command_->options : std::vector<OptionSpec>{}) {
            const auto& given = given_[spec.name];
            if (given.times == 0 && given.values.empty()) continue;
            for (const auto& value : given.values) (void)checked(spec, value);
            args.options[spec.name] = given.values;
        }
        return args;
    }

    [[noreturn]] void refuse(const std::string& what) const {
        if (!command_) throw Error(Exit::usage, what);
        throw Error(Exit::usage, {fmt::format("{}: {}", command_->name, what), usage_line(*command_)});
    }

private:
    void add(const Command& command) {
        const auto space = command.name.find(' ');
        auto* parent = &root_;
        if (space != std::string::npos) { parent = group(command.name.substr(0, space)); }
        auto* app = parent->add_subcommand(space == std::string::npos ? command.name : command.name.substr(space + 1));
        app->set_help_flag();
        app->preparse_callback([this, &command](std::size_t) { command_ = &command; });
        app->add_option("words", typed_)->expected(0, static_cast<int>(any_number));
        for (const auto& option : command.options) declare(*app, option, given_[option.name]);
    }

    CLI::App* group(const std::string& name) {
        if (group_ && group_->get_name() == name) return group_;
        auto* app = group_ = root_.add_subcommand(name);
        app->set_help_flag();
        app->require_subcommand(0, 1);
        return app;
    }

    std::vector<const OptionSpec*> specs() const {
        auto all = global_specs();
        if (command_)
            for (const auto& one : command_->options) all.push_back(&one);
        return all;
    }

    // A flag that is given a value, or an option without one.
    [[noreturn]] void refuse_mismatch(const Words& words) const {
        const auto all = specs();
        for (std::size_t at = 0; at < words.size(); ++at) {
            const auto* spec = is_long_option(words[at]) ? named(all, words[at]) : nullptr;
            if (!spec) continue;
            const bool joined = words[at].find('=') != std::string::npos;
            if (spec->value.empty() && joined) refuse(fmt::format("--{}: it takes no value", spec->name));
            if (!spec->value.empty() && !joined && ++at == words.size()) (void)checked(*spec, "--");
        }
        refuse("an option and its value do not match");
    }

    std::string checked(const OptionSpec& spec, const std::string& value) const {
        if (is_long_option(value)) refuse(fmt::format("--{}: {} is missing behind it", spec.name, spec.value));
        auto meant = value;  // "seller said" is seller-said
        std::replace_if(
            meant.begin(), meant.end(), [](char c) { return c == ' ' || c == '_'; }, '-');
        if (spec.values.empty() || std::find(spec.values.begin(), spec.values.end(), meant) != spec.values.end())
            return value;
        const auto near = nearest(value, spec.values);
        refuse(fmt::format("--{}: \"{}\": {}it takes {}", spec.name, value,
                           near.empty() ? "" : fmt::format("did you mean {}? ", near), fmt::join(spec.values, " or ")));
    }

    [[noreturn]] void refuse_option(const std::string& word) const {
        Words names{"--help"};
        for (const auto* one : specs()) names.push_back("--" + one->name);
        if (!command_) names.emplace_back("--version");
        const auto name = word.substr(0, word.find('='));
        const auto near = nearest(name, names);
        refuse(fmt::format("{}: no such option{}", name, near.empty() ? "" : fmt::format(": did you mean {}?", near)));
    }

    const std::vector<const Command*>& branch_;
    CLI::App root_{"casebound"};
    std::map<std::string, Given> given_;
    const Command* command_ = nullptr;
    CLI::App* group_ = nullptr;  // of a branch there is one at most
    Words typed_, rest_;
};

// What must be typed, word by word: "VEHICLE", "JOB".
Words needed_words(const Command& command) {
    Words needed;
    for (std::size_t at = 0; needed.size() < command.least && at < command.words.size();) {
        const auto end = std::min(command.words.find(' ', at), command.words.size());
        auto word = command.words.substr(at, end - at);
        if (word.ends_with("...")) word.resize(word.size() - 3);
        needed.push_back(std::move(word));
        at = end + 1;
    }
    return needed;
}

void check_count(const Command& command, const Words& given, const Reader& reader) {
    if (given.size() < command.least) {
        const auto needed = needed_words(command);
        const bool in_one_order = command.words.find(" | ") == std::string::npos && needed.size() == command.least;
        if (!in_one_order) reader.refuse("more words are needed");
        const Words missing(needed.begin() + static_cast<std::ptrdiff_t>(given.size()), needed.end());
        reader.refuse(fmt::format("{} {} missing", fmt::join(missing, " and "), missing.size() == 1 ? "is" : "are"));
    }
    if (given.size() > command.most) reader.refuse(fmt::format("{}: one word too many", given[command.most]));
}

[[noreturn]] void refuse_in_group(const std::vector<const Command*>& branch, const std::string& first,
                                  const std::string& second) {
    Words names;
    for (const auto* command : branch) names.push_back(command->name);
    const auto near = second.empty() ? "" : nearest(first + " " + second, names);
    throw Error(Exit::usage, second.empty() ? fmt::format("{}: say what to do: {}", first, fmt::join(names, ", "))
                             : near.empty()
                                 ? fmt::format("{} {}: no such command: {}", first, second, fmt::join(names, ", "))
                                 : fmt::format("{} {}: no such command: did you mean {}?", first, second, near));
}

// Only what begins with `first`, so that parsing stays cheap.
std::vector<const Command*> branch_of(const std::vector<Command>& table, const std::string& first) {
    std::vector<const Command*> branch;
    for (const auto& command : table)
        if (first_part(command) == first) branch.push_back(&command);
    return branch;
}

}  // namespace

std::string first_part(const Command& command) { return command.name.substr(0, command.name.find(' ')); }

std::size_t first_word(const Words& words) {
    const auto specs = global_specs();
    std::size_t at = 0;
    while (at < words.size() && is_option(words[at])) {
        const auto* spec = named(specs, words[at]);
        at += spec && !spec->value.empty() && words[at].find('=') == std::string::npos ? 2 : 1;
    }
    return std::min(at, words.size());
}

std::string command_hint(std::string_view typed, const std::vector<Command>& table, const Words& also) {
    Words names = also;
    for (const auto& command : table) names.push_back(first_part(command));
    const auto near = nearest(typed, names);
    return near.empty() ? "`casebound help` lists the commands" : fmt::format("did you mean {}?", near);
}

TypedCommand typed_command(const Words& words, const std::vector<Command>& table, Session::Options& options) {
    const auto at = first_word(words);
    const auto branch = at < words.size() ? branch_of(table, words[at]) : std::vector<const Command*>{};
    Reader reader(branch);
    const auto* command = reader.read(words);
    if (!command && branch.empty()) throw Error(Exit::usage, "a command is missing: `casebound help` lists them");
    if (!command) refuse_in_group(branch, words[at], reader.rest().empty() ? "" : reader.rest().front());
    TypedCommand typed{command, reader.args(options)};
    check_count(*command, typed.args.words, reader);
    return typed;
}

Args typed_inquiry(const Words& words, std::size_t domain_at, Session::Options& options) {
    const Command inquiry{
        "inquiry",  "[INQUIRY] [NAME=VALUE...]",
        "",         0,
        any_number, {{"for", "VEHICLE", "with what is told of this vehicle"}, {"help", "", "its inputs"}}};
    Words meant = words;
    meant[domain_at] = inquiry.name;
    std::replace(meant.begin(), meant.end(), std::string("-h"), std::string("--help"));
    const std::vector<const Command*> branch{&inquiry};
    Reader reader(branch);
    reader.read(meant);
    return reader.args(options);
}

}  // namespace casebound
