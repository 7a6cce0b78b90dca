#include "core/work/fits_text.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/work/list_mapping.h"

namespace casebound {

namespace {

std::string small(std::string_view text) {
    std::string out(text);
    for (auto& c : out) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return out;
}

std::vector<std::string> tokens_of(std::string_view text) {
    static const std::set<std::string> without_meaning{"fits", "for", "suits", "and", "with"};
    std::vector<std::string> tokens(1);
    for (const char c : small(text))
        if (c != ' ' && c != ',' && c != ';' && c != '(' && c != ')') tokens.back() += c;
        else if (!tokens.back().empty()) tokens.emplace_back();
    std::erase_if(tokens, [](const auto& token) { return token.empty() || without_meaning.contains(token); });
    return tokens;
}

bool all_digits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}
bool year_digits(std::string_view text) { return all_digits(text) && (text.size() == 2 || text.size() == 4); }

struct Years {
    int from = 0, to = 0;  // to 0: open
};

// Both ends in one century, or across its turn.
std::vector<Years> readings(std::string_view from, std::string_view to) {
    std::vector<Years> all;
    const int low = std::stoi(std::string(from)), high = to.empty() ? 0 : std::stoi(std::string(to));
    if (from.size() == 4) {
        const int end = to.size() == 2 ? low / 100 * 100 + high : high;
        all.push_back({low, end});
    } else {
        for (const int century : {1900, 2000})
            all.push_back({century + low, to.empty()       ? 0
                                          : to.size() == 4 ? high
                                                           : century + high + (high < low ? 100 : 0)});
    }
    std::erase_if(all, [](const Years& years) { return years.to != 0 && years.to < years.from; });
    return all;
}

}  // namespace

FitsText::FitsText(const Catalog& catalog, const Words& words) : catalog_(catalog) {
    for (const auto& [word, ours] : words) words_.emplace(small(word), ours);
    std::map<std::string, std::size_t> at;
    for (const auto& row : catalog.facts().rows("lines")) {
        at[std::string(row.text("line"))] = lines_.size();
        lines_.push_back(
            {std::string(row.text("line")), std::string(row.text("title")), {tokens_of(row.text("title"))}, {}});
    }
    for (const auto& [word, ours] : words_)
        if (const auto* line = named(ours)) lines_[at[line->key]].names.push_back(tokens_of(word));
    for (const auto& row : catalog.facts().rows("configurations")) {
        const auto found = at.find(std::string(row.text("line")));
        if (found == at.end()) continue;
        auto& line = lines_[found->second];
        for (const auto& term : parse_condition(row.text("attribute_values")).terms)
            for (const auto& span : term.spans)
                for (const auto& end : {span.low, span.high}) {
                    if (!end) continue;
                    line.values[term.attribute].insert(small(*end));
                    const auto* attribute = catalog.vocabularies().attribute(term.attribute);
                    line.has_months = line.has_months || (attribute && attribute->kind == ValueKind::month);
                    if (term.attribute != "year" || !all_digits(*end)) continue;
                    const int year = std::stoi(*end);
                    line.first_year = line.first_year == 0 ? year : std::min(line.first_year, year);
                    line.last_year = std::max(line.last_year, year);
                }
    }
}

const FitsText::Line* FitsText::named(std::string_view text) const {
    const auto ours = words_.find(small(text));
    const std::string_view meant = ours == words_.end() ? text : std::string_view(ours->second);
    for (const auto& line : lines_)
        if (line.key == meant || as_words(line.title) == as_words(meant)) return &line;
    return nullptr;
}

const FitsText::Line* FitsText::named_in(Tokens& tokens, std::string& why) const {
    const Line* found = nullptr;
    Tokens left;
    for (const auto& line : lines_)
        for (const auto& name : line.names) {
            const auto at = std::search(tokens.begin(), tokens.end(), name.begin(), name.end());
            if (name.empty() || at == tokens.end()) continue;
            if (found) why = fmt::format("it may be {} or {}", found->title, line.title);
            found = &line;
            left.assign(tokens.begin(), at);
            left.insert(left.end(), at + static_cast<std::ptrdiff_t>(name.size()), tokens.end());
            break;
        }
    if (!found) why = "no vehicle line that is loaded is named: say --line LINE, or --word \"NAME=LINE\"";
    else tokens = std::move(left);
    return why.empty() ? found : nullptr;
}

std::string FitsText::years(const Line& line, const std::string& token) const {
    const auto dash = token.find('-');
    const auto from = token.substr(0, dash);
    const auto to = dash == std::string::npos ? from : token.substr(dash + 1);
    if (!year_digits(from) || !(to.empty() || year_digits(to)) || line.first_year == 0) return {};
    if (dash == std::string::npos && from.size() == 2) return {};
    auto all = readings(from, to);
    std::erase_if(all, [&](const Years& years) {
        return years.from > line.last_year || (years.to != 0 && years.to < line.first_year);
    });
    if (all.size() != 1) return {};
    if (all[0].to == 0) return fmt::format("year={}..", all[0].from);
    return all[0].to == all[0].from ? fmt::format("year={}", all[0].from)
                                    : fmt::format("year={}..{}", all[0].from, all[0].to);
}

// "2006-08" is August, or to 2008.
bool FitsText::may_be_month(const Line& line, const std::string& token) {
    return line.has_months && token.size() == 7 && token[4] == '-' && token.substr(5) >= "01" &&
           token.substr(5) <= "12";
}

std::vector<std::string> FitsText::attributes_with(const Line& line, const std::string& value) const {
    std::vector<std::string> names;
    for (const auto& [attribute, values] : line.values)
        if (values.contains(value)) names.push_back(attribute);
    return names;
}

// "2.2", "2.2/2.6": one attribute has all of them.
std::string FitsText::term(const Line& line, const std::string& token, std::string& why) const {
    if (const auto ours = words_.find(token); ours != words_.end()) return ours->second;
    if (auto read = years(line, token); !read.empty()) {
        if (!may_be_month(line, token)) return read;
        why = fmt::format("`{}` may be {} or a month: --word \"{}={}\" if it is years", token, read, token, read);
        return {};
    }
    std::vector<std::string> parts(1);
    for (const char c : token)
        if (c == '/') parts.emplace_back();
        else parts.back() += c;
    std::set<std::string> names;
    for (const auto& part : parts) {
        const auto found = attributes_with(line, part);
        if (found.size() > 1) why = fmt::format("`{}` may be {} of {}", token, fmt::join(found, " or "), line.title);
        if (found.empty()) why = fmt::format("`{}` is no value of {} on record", token, line.title);
        if (found.size() != 1) return {};
        names.insert(found.front());
    }
    if (names.size() == 1) return fmt::format("{}={}", *names.begin(), fmt::join(parts, "|"));
    why = fmt::format("`{}` is values of {}", token, fmt::join(names, " and "));
    return {};
}

// A claim that no configuration meets would keep its whole pack from being loaded.
std::string FitsText::unmet(const Line& line, const std::string& condition) const {
    const auto* model = catalog_.line(line.key);
    if (!model || model->open || condition.empty()) return {};
    try {
        const auto whole = parse_condition(condition);
        for (const auto& term : whole.terms)
            for (const auto& span : term.spans) {
                if (!model->set.column(term.attribute))
                    return fmt::format("{} of {} is not on record", term.attribute, line.title);
                const Condition one{{{term.attribute, false, {span}, term.at}}};
                if (!model->set.where(one).any())
                    return fmt::format("no {} on record has {}", line.title, to_text(one));
            }
        if (!model->set.where(whole).any()) return fmt::format("no {} on record has all of {}", line.title, condition);
    } catch (const ConditionFault& fault) { return fault.what(); }
    return {};
}

FitsReading FitsText::read(std::string_view line, std::string_view text, const std::vector<std::string>& told) const {
    FitsReading reading;
    auto tokens = tokens_of(text);
    const Line* found = line.empty() ? named_in(tokens, reading.why) : named(line);
    if (!found && reading.why.empty())
        reading.why = fmt::format("`{}` is no vehicle line that is loaded: --word \"{}=LINE\"", line, line);
    if (!found) return reading;
    reading.line = found->key;
    auto terms = told;
    for (const auto& token : tokens) {
        terms.push_back(term(*found, token, reading.why));
        if (!reading.why.empty()) return reading;
    }
    std::set<std::string> attributes;
    for (const auto& one : terms)
        if (!attributes.insert(one.substr(0, one.find_first_of("=<>"))).second)
            reading.why = fmt::format("it says {} twice", one.substr(0, one.find_first_of("=<>")));
    reading.condition = fmt::format("{}", fmt::join(terms, "; "));
    if (reading.why.empty()) reading.why = unmet(*found, reading.condition);
    return reading;
}

}  // namespace casebound
