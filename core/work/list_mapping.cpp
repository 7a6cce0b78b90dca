#include "core/work/list_mapping.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "core/ground/error.h"
#include "core/ground/owned_json.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

using nlohmann::ordered_json;

constexpr const char* schema = "casebound.list-mapping/1";

// Words that headers of such lists use, English and German; the first that is met counts. Common practice, no source.
struct HeaderWord {
    std::string_view word, meaning;
};
constexpr std::array<HeaderWord, 40> header_words{
    {{"replaces", "same_as"}, {"original no", "same_as"}, {"oe no", "same_as"},       {"ersetzt", "same_as"},
     {"part number", "item"}, {"part no", "item"},        {"item no", "item"},        {"article no", "item"},
     {"art nr", "item"},      {"artikelnummer", "item"},  {"teilenummer", "item"},    {"sku", "item"},
     {"deposit", "core"},     {"core", "core"},           {"pfand", "core"},          {"price", "price"},
     {"preis", "price"},      {"delivery", "days"},       {"days", "days"},           {"lieferzeit", "days"},
     {"stock", "available"},  {"bestand", "available"},   {"contents", "pack"},       {"content", "pack"},
     {"pack", "pack"},        {"inhalt", "pack"},         {"category", "kind"},       {"type of part", "kind"},
     {"warengruppe", "kind"}, {"fits", "fits"},           {"application", "fits"},    {"passend", "fits"},
     {"vehicle", "line"},     {"model", "line"},          {"fahrzeug", "line"},       {"description", "title"},
     {"title", "title"},      {"bezeichnung", "title"},   {"year from", "year from"}, {"year to", "year to"}}};

bool has_words(const std::string& text, std::string_view words) {
    return fmt::format(" {} ", text).find(fmt::format(" {} ", words)) != std::string::npos;
}

// "Contents (L)" is in L; "" when the header names no unit that is known.
std::string unit_in(const std::string& header) {
    const auto open = header.find_first_of("([");
    const auto close = header.find_first_of(")]", open == std::string::npos ? 0 : open);
    if (open == std::string::npos || close == std::string::npos) return {};
    auto unit = header.substr(open + 1, close - open - 1);
    if (unit == "l") unit = "L";
    return known_unit(unit) ? unit : std::string();
}

std::string by_header(const std::string& header, const Vocabularies& words) {
    const auto text = as_words(header);
    for (const auto& one : header_words)
        if (has_words(text, one.word)) {
            const auto unit = one.meaning == "pack" ? unit_in(header) : std::string();
            return unit.empty() ? std::string(one.meaning) : fmt::format("{} {}", one.meaning, unit);
        }
    for (const auto& [name, attribute] : words.attributes())
        if (text == as_words(name) || text == as_words(attribute.word.title)) return name;
    return {};
}

constexpr std::size_t longest_number = 30;

bool digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }

// 12.50 or 12,50 or 1.234,50: the sign before the last two digits.
char sign_of_money(std::string_view cell) {
    const auto last = cell.find_last_not_of(" ");
    if (last == std::string_view::npos || last < 3 || !digit(cell[last]) || !digit(cell[last - 1])) return 0;
    const char sign = cell[last - 2];
    return (sign == '.' || sign == ',') && digit(cell[last - 3]) ? sign : '\0';
}

class Proposal {
public:
    Proposal(const ListSample& sample, const Vocabularies& words) : sample_(sample) {
        mapping.header = find_header();
        const auto& header = cells_of(mapping.header);
        std::set<std::string> taken;
        for (std::size_t i = 0; i < header.size(); ++i) {
            auto meaning = by_header(header[i], words);
            if (!meaning.empty() && !taken.insert(meaning).second) meaning.clear();  // the first of two keeps it
            mapping.columns.emplace_back(header[i], meaning.empty() ? "-" : meaning);
        }
        by_cells(taken);
        find_decimal();
    }
    ListMapping mapping;

private:
    // The first row that has as many cells as any: above it stand titles and addresses.
    unsigned long find_header() const {
        const auto filled = [](const auto& row) {
            return std::count_if(row.second.begin(), row.second.end(), [](const auto& cell) { return !cell.empty(); });
        };
        std::ptrdiff_t most = 0;
        for (const auto& row : sample_.rows) most = std::max(most, filled(row));
        for (const auto& row : sample_.rows)
            if (filled(row) * 4 >= most * 3) return row.first;
        return sample_.rows.front().first;
    }
    const std::vector<std::string>& cells_of(unsigned long line) const {
        return std::find_if(sample_.rows.begin(), sample_.rows.end(),
                            [&](const auto& row) { return row.first == line; })
            ->second;
    }
    std::vector<std::string> column(std::size_t at) const {
        std::vector<std::string> cells;
        for (const auto& [line, row] : sample_.rows)
            if (line > mapping.header && at < row.size() && !row[at].empty()) cells.push_back(row[at]);
        return cells;
    }

    // What no header told: a number of its own in every row, or amounts.
    void by_cells(const std::set<std::string>& taken) {
        for (const auto* wanted : {"item", "price"}) {
            if (taken.contains(wanted)) continue;
            for (std::size_t i = 0; i < mapping.columns.size(); ++i) {
                const auto cells = column(i);
                const bool is_it = std::string_view(wanted) == "item" ? are_numbers(cells) : are_amounts(cells);
                if (mapping.columns[i].second != "-" || cells.empty() || !is_it) continue;
                mapping.columns[i].second = wanted;
                break;
            }
        }
    }
    static bool are_numbers(const std::vector<std::string>& cells) {
        const std::set<std::string> different(cells.begin(), cells.end());
        return different.size() == cells.size() && std::all_of(cells.begin(), cells.end(), [](const auto& cell) {
                   return cell.size() <= longest_number && std::any_of(cell.begin(), cell.end(), digit) &&
                          sign_of_money(cell) == 0;
               });
    }
    static bool are_amounts(const std::vector<std::string>& cells) {
        return std::all_of(cells.begin(), cells.end(), [](const auto& cell) { return sign_of_money(cell) != 0; });
    }

    // One sign in all amounts; where both are met, or none, a person says it.
    void find_decimal() {
        std::set<char> signs;
        for (std::size_t i = 0; i < mapping.columns.size(); ++i) {
            const auto& meaning = mapping.columns[i].second;
            if (meaning != "price" && meaning != "core") continue;
            for (const auto& cell : column(i))
                if (const char sign = sign_of_money(cell)) signs.insert(sign);
        }
        if (signs.size() == 1) mapping.decimal = *signs.begin() == ',' ? "comma" : "point";
    }

    const ListSample& sample_;
};

}  // namespace

std::string as_words(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalnum(byte) || byte >= 0x80) out += static_cast<char>(std::tolower(byte));
        else if (!out.empty() && out.back() != ' ') out += ' ';
    }
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string ListMapping::of(std::string_view column) const {
    for (const auto& [name, meaning] : columns)
        if (name == column) return meaning;
    return "-";
}

const std::vector<std::pair<std::string, std::string>>& column_meanings() {
    static const std::vector<std::pair<std::string, std::string>> all{{"item", "part number"},
                                                                      {"title", "title, as on the label"},
                                                                      {"kind", "item kind"},
                                                                      {"pack", "how much one pack holds"},
                                                                      {"price", "price"},
                                                                      {"core", "core charge"},
                                                                      {"days", "days until it is here"},
                                                                      {"available", "packs that are there"},
                                                                      {"line", "vehicle line"},
                                                                      {"fits", "what it fits, in free text"},
                                                                      {"year from", "first year it fits"},
                                                                      {"year to", "last year it fits"},
                                                                      {"same_as", "the part that it serves for"},
                                                                      {"note", "note"},
                                                                      {"-", "(left out)"}};
    return all;
}

void require_meaning(const std::string& meaning, const Vocabularies& words) {
    std::vector<std::string> known;
    for (const auto& [key, what] : column_meanings()) known.push_back(key);
    if (std::find(known.begin(), known.end(), meaning) != known.end() || words.attribute(meaning)) return;
    if (meaning.starts_with("pack ") && known_unit(meaning.substr(5))) return;
    auto near_of = known;
    for (const auto& [name, attribute] : words.attributes()) near_of.push_back(name);
    const auto near = nearest(meaning, near_of);
    throw Error(
        Exit::usage,
        fmt::format("{}: a column is no such thing: {}write {}, `pack L` with a unit, or an attribute of vehicles",
                    meaning, near.empty() ? "" : fmt::format("did you mean {}? ", near), fmt::join(known, ", ")));
}

ListMapping proposed(const ListSample& sample, const Vocabularies& words) { return Proposal(sample, words).mapping; }

std::string mapping_text(const ListMapping& mapping) {
    ordered_json json{{"schema", schema},         {"seller", mapping.seller},   {"sheet", mapping.sheet},
                      {"header", mapping.header}, {"decimal", mapping.decimal}, {"kind", mapping.kind},
                      {"line", mapping.line},     {"role", mapping.role}};
    json["columns"] = ordered_json::array();
    for (const auto& [name, meaning] : mapping.columns) json["columns"].push_back({{"column", name}, {"is", meaning}});
    json["words"] = ordered_json::object();
    for (const auto& [word, ours] : mapping.words) json["words"][word] = ours;
    return json.dump(2) + "\n";
}

ListMapping mapping_from(const std::string& text, const std::string& path) {
    try {
        const OwnedJson owned = ordered_json::parse(text);
        const auto& json = *owned;
        if (json.at("schema") != schema) throw Error(Exit::bad_data, fmt::format("{}: it is no {}", path, schema));
        ListMapping mapping;
        mapping.seller = json.at("seller").get<std::string>();
        mapping.sheet = json.at("sheet").get<std::string>();
        mapping.header = json.at("header").get<unsigned long>();
        mapping.decimal = json.at("decimal").get<std::string>();
        mapping.kind = json.at("kind").get<std::string>();
        mapping.line = json.at("line").get<std::string>();
        mapping.role = json.at("role").get<std::string>();
        for (const auto& column : json.at("columns"))
            mapping.columns.emplace_back(column.at("column").get<std::string>(), column.at("is").get<std::string>());
        for (const auto& [word, ours] : json.at("words").items()) mapping.words.emplace(word, ours.get<std::string>());
        return mapping;
    } catch (const nlohmann::json::exception& error) {
        throw Error(Exit::bad_data,
                    fmt::format("{}: {}: mend it, or take it away and confirm the columns again", path, error.what()));
    }
}

}  // namespace casebound
