#include "core/verdict/find.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <filesystem>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"
#include "core/reason/vocabulary.h"
#include "core/verdict/part_number.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t part_bytes = 6;  // a longer part of a number is met by its beginning, then compared whole
// Begins each part of a number in the index, so that it is met by itself: "fil" as a part of a number is looked for among
// parts, not among the hundred thousand titles that have a filter. A letter that no part has, lower case and sorted last.
constexpr std::string_view part_mark = "\u03e1";
constexpr int most_ranked = 1000;    // of the hits, the first so many are ranked
constexpr const char* layout = "3";  // of the index: another one is made anew

constexpr const char* tables =
    "CREATE TABLE made_from (stamp TEXT NOT NULL) STRICT;"
    "CREATE TABLE entry (id INTEGER PRIMARY KEY, kind INTEGER NOT NULL, key TEXT NOT NULL, title TEXT NOT NULL) STRICT;"
    "CREATE VIRTUAL TABLE hit USING fts5(words, content='', columnsize=0, detail=none, prefix='2 3 4 5');"
    "CREATE VIRTUAL TABLE term USING fts5vocab(hit, 'row');";

// What the index was made from: every pack with its contents.
std::string stamp_of(const Catalog& catalog) {
    std::string stamp = layout;
    Statement packs(catalog.database(), "SELECT id, digest FROM pack ORDER BY id");
    while (packs.step()) stamp += fmt::format(" {}:{}", packs.integer(0), packs.text(1));
    return stamp;
}

// "Q3121141" as Q31211 312114 ... 41: every part of it is the beginning of one.
std::string parts_of(std::string_view key) {
    const auto number = compared_number(key);
    std::string parts;
    for (std::size_t at = 0; at + 2 <= number.size(); ++at) {
        if (static_cast<unsigned char>(number[at]) >= 0x80) continue;
        parts += part_mark;
        parts += number.substr(at, part_bytes);
        parts += ' ';
    }
    return parts;
}

class Making {
public:
    Making(const Catalog& catalog, Database& index)
        : catalog_(catalog), index_(index), entry_(index, "INSERT INTO entry (id, kind, key, title) VALUES (?,?,?,?)"),
          hit_(index, "INSERT INTO hit (rowid, words) VALUES (?,?)") {}

    void make() {
        Transaction writing(index_);
        Statement stamp(index_, "INSERT INTO made_from (stamp) VALUES (?)");
        const auto made_from = stamp_of(catalog_);
        stamp.bind(1, std::string_view(made_from)).run();
        add(FoundKind::item,
            "SELECT n.text, i.title, k.text FROM item i JOIN name n ON n.id = i.id JOIN name k ON k.id = i.kind");
        add(FoundKind::group,
            "SELECT n.text, g.title, k.text FROM item_group g JOIN name n ON n.id = g.id JOIN name k ON k.id = g.kind");
        add(FoundKind::line, "SELECT line, title, coalesce(note, '') FROM lines");
        add(FoundKind::job, "SELECT job, title, '' FROM jobs");
        writing.commit();
    }

private:
    void add(FoundKind kind, const char* sql) {
        Statement rows(catalog_.database(), sql);
        while (rows.step()) {
            const auto key = rows.str(0), title = rows.str(1);
            entry_.reset()
                .bind(1, ++last_)
                .bind(2, static_cast<std::int64_t>(kind))
                .bind_view(3, key)
                .bind_view(4, title)
                .run();
            const auto words = fmt::format("{} {} {} {}", key, title, rows.text(2), parts_of(key));
            hit_.reset().bind(1, last_).bind_view(2, words).run();
        }
    }

    const Catalog& catalog_;
    Database& index_;
    Statement entry_, hit_;
    std::int64_t last_ = 0;
};

bool is_of(const Database& index, const Catalog& catalog) {
    try {
        Statement stamp(index, "SELECT stamp FROM made_from");
        return stamp.step() && stamp.text(0) == stamp_of(catalog);
    } catch (const Error&) { return false; }  // not whole: made anew
}

// Of a large catalog it takes long enough to be taken for a fault.
void say_how_long(const Catalog& catalog) {
    constexpr std::int64_t many = 50'000, items_a_second = 40'000;  // measured: a million in 26 s, on two cores
    const auto items = catalog.database().integer("SELECT count(*) FROM items");
    if (items >= many)
        print_message(fmt::format("casebound: {} items are made ready to be found, once after a load: about {} s\n",
                                  items, items / items_a_second + 1));
}

Database made(const Catalog& catalog, const std::string& path) {
    Database index(path, Database::Mode::create);
    index.execute(tables);
    Making(catalog, index).make();
    return index;
}

Database opened(const Catalog& catalog, const std::string& path) {
    if (fs::exists(path)) {
        try {
            Database index(path, Database::Mode::read_only);
            if (is_of(index, catalog)) return index;
        } catch (const Error&) {}  // not a database: made anew
    }
    say_how_long(catalog);
    try {
        const auto beside = fmt::format("{}.new", path);
        fs::remove(beside);
        { const auto whole = made(catalog, beside); }
        put_in_place(beside, path);
        forget_written(beside);
        forget_written(path);
        return Database(path, Database::Mode::read_only);
    } catch (const Error&) { return made(catalog, ":memory:"); }
}

std::vector<std::string> words_in(std::string_view typed) {
    std::vector<std::string> words{""};
    for (const char c : typed)
        if (c == ' ' || c == '\t' || c == ',' || c == '"') words.emplace_back();
        else words.back() += c;
    std::erase_if(words, [](const std::string& word) {
        return compared_number(word).empty() ||
               std::none_of(word.begin(), word.end(), [](unsigned char c) { return std::isalnum(c) || c >= 0x80; });
    });
    return words;
}

// Whole: a word as it stands, a list that the index has; its beginning: every word that begins so, which are put together
// first, and take long where they are many.
enum class Meet : std::uint8_t { whole, beginning };

// "q312-1141" as the index knows it: q312 and 1141, or the beginning of a word 1141.
std::string words_of(const std::string& typed, Meet meet) {
    std::vector<std::string> tokens{""};
    for (const char c : typed)
        if (std::isalnum(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80) tokens.back() += c;
        else if (!tokens.back().empty()) tokens.emplace_back();
    if (tokens.back().empty() && tokens.size() > 1) tokens.pop_back();
    std::string query;
    for (const auto& token : tokens)
        query += fmt::format("{}\"{}\"{}", query.empty() ? "" : " AND ", token,
                             meet == Meet::beginning && &token == &tokens.back() ? " *" : "");
    return query;
}

// Each word as a word, or as part of the number.
std::string query_of(const std::vector<std::string>& words, Meet meet) {
    std::vector<std::string> terms;
    for (const auto& word : words) {
        std::string number;
        for (const char c : compared_number(word).substr(0, part_bytes))
            if (std::isalnum(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80) number += c;
        terms.push_back(number.size() < 2
                            ? fmt::format("({})", words_of(word, meet))
                            : fmt::format("(({}) OR \"{}{}\" *)", words_of(word, meet), part_mark, number));
    }
    return fmt::format("{}", fmt::join(terms, " AND "));
}

std::string folded(std::string_view text) {
    std::string folded(text);
    for (auto& c : folded) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return folded;
}

bool begins_a_word(const std::string& text, const std::string& word) {
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1))
        if (at == 0 || !std::isalnum(static_cast<unsigned char>(text[at - 1]))) return true;
    return false;
}

// How well one entry meets what was typed; less is better; nothing: it does not, a long part differs behind its beginning.
std::optional<int> rank(const Found& entry, const std::vector<std::string>& words, const std::string& whole) {
    const auto number = compared_number(entry.key), text = folded(entry.key + " " + entry.title);
    if (number == whole) return 0;
    int rank = number.starts_with(whole) ? 1 : number.find(whole) != std::string::npos ? 2 : 3;
    for (const auto& word : words) {
        const auto part = compared_number(word);
        const bool in_number = number.find(part) != std::string::npos;
        const bool in_title = begins_a_word(text, folded(word));
        if (!in_number && !in_title && part.size() > part_bytes) return std::nullopt;
        rank += number.starts_with(part) || number.ends_with(part) ? 0 : in_title ? 1 : in_number ? 2 : 3;
    }
    return rank;
}

using Ranked = std::vector<std::pair<int, Found>>;

Ranked met(const Database& index, const std::vector<std::string>& words, const std::string& whole, Meet meet) {
    Statement hits(index,
                   "SELECT e.kind, e.key, e.title FROM (SELECT rowid FROM hit WHERE hit MATCH ?1 LIMIT ?2) h JOIN "
                   "entry e ON e.id = h.rowid");
    const auto query = query_of(words, meet);
    hits.bind(1, std::string_view(query)).bind(2, std::int64_t{most_ranked});
    Ranked ranked;
    while (hits.step()) {
        Found one{static_cast<FoundKind>(hits.integer(0)), hits.str(1), hits.str(2)};
        if (const auto at = rank(one, words, whole)) ranked.emplace_back(*at, std::move(one));
    }
    return ranked;
}

}  // namespace

std::string_view found_kind_words(FoundKind kind) {
    constexpr std::array<std::string_view, 4> words{"item", "group", "vehicle line", "job"};
    return words[static_cast<std::size_t>(kind)];
}

Finder::Finder(const Catalog& catalog, const std::string& path) : catalog_(catalog), index_(opened(catalog, path)) {}

FindAnswer Finder::find(std::string_view typed, std::size_t most) const {
    const auto words = words_in(typed);
    FindAnswer answer;
    if (words.empty()) return answer;
    const auto whole = compared_number(typed);
    auto ranked = met(index_, words, whole, Meet::whole);
    if (ranked.size() <= most) ranked = met(index_, words, whole, Meet::beginning);
    std::stable_sort(ranked.begin(), ranked.end(), [](const auto& a, const auto& b) {
        return std::tuple(a.first, a.second.kind, a.second.key) < std::tuple(b.first, b.second.kind, b.second.key);
    });
    answer.more = ranked.size() > most;
    for (auto& [at, one] : ranked)
        if (answer.found.size() < most) answer.found.push_back(std::move(one));
    if (!answer.found.empty()) return answer;
    Statement terms(index_, "SELECT term FROM term WHERE term < ? LIMIT 20000");
    std::vector<std::string> known;
    terms.bind(1, part_mark);
    while (terms.step()) known.push_back(terms.str(0));
    for (const auto& word : words)
        if (const auto near = nearest(folded(word), known); !near.empty() && near != folded(word))
            answer.did_you_mean.push_back(near);
    for (const char* table : {"items", "groups"})
        for (const auto& near : catalog_.near(number_as_key(typed), table)) answer.did_you_mean.push_back(near);
    return answer;
}

}  // namespace casebound
