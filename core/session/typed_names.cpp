#include "core/session/typed_names.h"

#include <algorithm>
#include <cctype>
#include <map>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

using Words = std::vector<std::string>;

// "Pan depth, rail to floor" and "pan-depth_rail to floor" are one name.
std::string plain(std::string_view name) {
    std::string out;
    for (const char c : name) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalnum(byte) || byte >= 0x80) out += static_cast<char>(std::tolower(byte));
        else if (!out.empty() && out.back() != '-') out += '-';
    }
    while (!out.empty() && out.back() == '-') out.pop_back();
    return out;
}

// Names in plain form, with the key each means; one that means two keys means none.
class Names {
public:
    // A title counts also as far as its comma: "pan depth, rail to floor".
    void add(const std::string& key, const std::string& title) {
        for (const auto& name : {key, title, title.substr(0, title.find(','))}) {
            const auto [at, fresh] = keys_.emplace(plain(name), key);
            if (!fresh && at->second != key && plain(name) != plain(key)) at->second.clear();
        }
    }
    void firmly(const std::string& key) { keys_[plain(key)] = key; }  // a key is always itself

    std::optional<std::string> key(std::string_view typed) const {
        const auto at = keys_.find(plain(typed));
        return at == keys_.end() || at->second.empty() ? std::nullopt : std::optional(at->second);
    }

    // The longest run of words from `from` that is a name, and how many they are.
    std::optional<std::pair<std::string, std::size_t>> run(const Words& words, std::size_t from) const {
        std::optional<std::pair<std::string, std::size_t>> longest;
        std::string joined;
        for (std::size_t to = from; to < words.size() && words[to].find('=') == std::string::npos; ++to) {
            joined += (joined.empty() ? "" : " ") + words[to];
            if (auto found = key(joined)) longest = {std::move(*found), to + 1 - from};
        }
        return longest;
    }

    // Words that are nothing but names: each by its key.
    Words each(const Words& words) const {
        Words found;
        for (std::size_t at = 0; at < words.size();) {
            const auto one = run(words, at);
            found.push_back(one ? one->first : words[at]);
            at += one ? one->second : 1;
        }
        return found;
    }

private:
    std::map<std::string, std::string, std::less<>> keys_;
};

template <class Declared> Names names_of(const Declared& declared) {
    Names names;
    for (const auto& [key, one] : declared) names.add(key, one.word.title);
    for (const auto& [key, one] : declared) names.firmly(key);
    return names;
}

// The value that begins at `from`: one of the choices in as many words as it has, a number with its unit, or one word.
std::pair<std::string, std::size_t> value_run(const Attribute& attribute, const Words& words, std::size_t from) {
    Names choices;
    for (const auto& choice : attribute.choices) choices.firmly(choice);
    if (const auto run = choices.run(words, from)) return *run;
    const bool number = attribute.kind == ValueKind::number || attribute.kind == ValueKind::size;
    if (number && from + 1 < words.size() && known_unit(words[from + 1]))
        return {words[from] + " " + words[from + 1], 2};
    return {words[from], 1};
}

}  // namespace

std::string place_titles(const Catalog& catalog, const std::vector<std::string>& keys) {
    std::vector<std::string> titles;
    for (const auto& key : keys) titles.push_back(place_title(catalog, key));
    return listed_titles(titles);
}

std::string place_title(const Catalog& catalog, std::string_view key) {
    const auto* role = catalog.vocabularies().role(key);
    return role ? named(role->title, key) : std::string(key);
}

std::string place_typed(const Catalog& catalog, std::string_view typed) {
    return names_of(catalog.vocabularies().roles()).key(typed).value_or(std::string(typed));
}

namespace {

Words split_at_dashes(const std::string& name) {
    Words words;
    for (std::size_t from = 0; from <= name.size();) {
        const auto end = std::min(name.find('-', from), name.size());
        if (end > from) words.push_back(name.substr(from, end - from));
        from = end + 1;
    }
    return words;
}

bool is_like(const std::string& typed, const std::string& word) {
    constexpr std::size_t short_word = 4;  // of three letters another is another word
    return typed == word || (typed.size() >= short_word && !nearest(typed, {word}).empty());
}

// A job by the words of its key and its title, as it is offered.
struct NamedJob {
    std::string key, shown;
    Words words;
    double score{};  // of what was typed: a word that few jobs have says more
};

std::vector<NamedJob> named_jobs(const Catalog& catalog) {
    std::vector<NamedJob> jobs;
    for (const auto& row : catalog.facts().rows("jobs")) {
        const std::string key(row.text("job")), title(row.text("title"));
        jobs.push_back({plain(key), fmt::format("{} ({})", key, title), split_at_dashes(plain(key + " " + title)), 0});
    }
    return jobs;
}

// The nearest first: by words, else by the spelling of the whole.
Words nearest_jobs(std::vector<NamedJob> jobs, const std::string& typed) {
    constexpr std::size_t most = 3;
    for (const auto& word : split_at_dashes(plain(typed))) {
        const auto has = [&](const NamedJob& job) {
            return std::any_of(job.words.begin(), job.words.end(),
                               [&](const std::string& one) { return is_like(word, one); });
        };
        const auto many = static_cast<double>(std::count_if(jobs.begin(), jobs.end(), has));
        for (auto& job : jobs)
            if (has(job)) job.score += 1 / many;
    }
    std::stable_sort(jobs.begin(), jobs.end(), [](const auto& a, const auto& b) { return a.score > b.score; });
    Words near, keys;
    for (const auto& job : jobs) {
        if (job.score > 0 && near.size() < most) near.push_back(job.shown);
        keys.push_back(job.key);
    }
    const auto spelled = near.empty() ? nearest(plain(typed), keys) : "";
    for (const auto& job : jobs)
        if (!spelled.empty() && job.key == spelled) near.push_back(job.shown);
    return near;
}

}  // namespace

void no_such_job(const Catalog& catalog, const std::string& typed) {
    const auto jobs = named_jobs(catalog);
    if (jobs.empty()) throw Error(Exit::usage, fmt::format("{}: no such job: no loaded pack has any", typed));
    const auto near = nearest_jobs(jobs, typed);
    throw Error(
        Exit::usage,
        fmt::format("{}: no such job{} `casebound list VEHICLE` names all {}.", typed,
                    near.empty() ? "." : fmt::format(": did you mean {}?", fmt::join(near, " or ")), jobs.size()));
}

Words jobs_typed(const Catalog& catalog, const Words& words) {
    Names names;
    for (const auto& row : catalog.facts().rows("jobs"))
        names.add(std::string(row.text("job")), std::string(row.text("title")));
    for (const auto& row : catalog.facts().rows("jobs")) names.firmly(std::string(row.text("job")));
    auto jobs = names.each(words);
    std::string unknown;  // words side by side that are none, as they were typed
    const auto is_job = [&](const std::string& job) { return !catalog.facts().rows("jobs", "job", job).empty(); };
    for (const auto& job : jobs)
        if (!is_job(job)) unknown += (unknown.empty() ? "" : " ") + job;
        else if (!unknown.empty()) break;
    if (!unknown.empty()) no_such_job(catalog, unknown);
    return jobs;
}

Words attributes_typed(const Vocabularies& vocabularies, const Words& words) {
    return names_of(vocabularies.attributes()).each(words);
}

Words tellings_typed(const Vocabularies& vocabularies, const Words& words) {
    const auto names = names_of(vocabularies.attributes());
    Words tellings;
    for (std::size_t at = 0; at < words.size();) {
        if (const auto cut = words[at].find_first_of("+="); cut != std::string::npos && cut > 0) {
            const auto left = words[at].substr(0, cut);
            tellings.push_back(names.key(left).value_or(left) + words[at].substr(cut));
            ++at;
            continue;
        }
        const auto run = names.run(words, at);
        const auto* attribute = run ? vocabularies.attribute(run->first) : nullptr;
        if (!attribute || at + run->second == words.size()) {
            tellings.push_back(words[at++]);
            continue;
        }
        const auto [value, count] = value_run(*attribute, words, at + run->second);
        tellings.push_back(run->first + "=" + value);
        at += run->second + count;
    }
    return tellings;
}

}  // namespace casebound
