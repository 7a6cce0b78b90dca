#include "core/store/sql_text.h"

#include <cctype>
#include <cstdlib>
#include <regex>

#include "core/contract/text.h"

namespace casebound {

namespace {

bool same_word(std::string_view a, std::string_view b) {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i)
        if (std::tolower(static_cast<unsigned char>(a[i])) != std::tolower(static_cast<unsigned char>(b[i])))
            return false;
    return true;
}

// One piece of SQL at a time: a comment, a quoted text or name, or a single character.
struct Piece {
    enum Kind { plain, quoted, comment } kind = plain;
    std::string_view text;  // with its quotes, without the comment's marks
};

Piece piece_at(std::string_view sql, std::size_t& at) {
    const auto from = at;
    const auto upto = [&](std::string_view ending) {
        const auto end = sql.find(ending, at + 1);
        return end == std::string_view::npos ? sql.size() : end;
    };
    if (sql.substr(at, 2) == "--") {
        at = upto("\n");
        return {Piece::comment, trimmed(sql.substr(from + 2, at - from - 2))};
    }
    if (sql.substr(at, 2) == "/*") {
        const auto end = upto("*/");
        at = std::min(sql.size(), end + 2);
        return {Piece::comment, trimmed(sql.substr(from + 2, end - from - 2))};
    }
    const char c = sql[at];
    if (c == '\'' || c == '"' || c == '`' || c == '[') {
        at = std::min(sql.size(), upto(c == '[' ? "]" : std::string_view(&c, 1)) + 1);
        return {Piece::quoted, sql.substr(from, at - from)};
    }
    ++at;
    return {Piece::plain, sql.substr(from, 1)};
}

std::string first_word(std::string_view text) {
    text = trimmed(text);
    std::size_t at = 0;
    if (!text.empty() && (text[0] == '"' || text[0] == '`' || text[0] == '[')) {
        const auto piece = piece_at(text, at).text;
        return std::string(piece.substr(1, piece.size() - 2));
    }
    while (at < text.size() && (std::isalnum(static_cast<unsigned char>(text[at])) || text[at] == '_')) ++at;
    return std::string(text.substr(0, at));
}

void add_comment(SqlDefinition& definition, std::string_view comment) {
    if (!definition.comment.empty()) definition.comment += ' ';
    definition.comment += comment;
}

std::size_t after_word(std::string_view text, std::string_view word) {
    for (std::size_t at = 0; at < text.size();) {
        const auto from = at;
        if (piece_at(text, at).kind != Piece::plain || !std::isalpha(static_cast<unsigned char>(text[from]))) continue;
        while (at < text.size() && (std::isalnum(static_cast<unsigned char>(text[at])) || text[at] == '_')) ++at;
        if (same_word(text.substr(from, at - from), word)) return at;
    }
    return std::string_view::npos;
}

}  // namespace

std::vector<SqlDefinition> definitions_in(std::string_view create_table) {
    std::vector<SqlDefinition> found;
    SqlDefinition now;
    bool same_line = false;  // nothing but blanks since the last definition's comma
    int depth = 0;
    const auto close = [&] {
        now.text = trimmed(now.text);
        now.name = first_word(now.text);
        if (!now.text.empty()) found.push_back(now);
        now = {};
    };
    for (std::size_t at = 0; at < create_table.size();) {
        const auto piece = piece_at(create_table, at);
        const char c = piece.kind == Piece::plain ? piece.text[0] : ' ';
        if (c == '(') ++depth;
        if (c == ')' && --depth == 0) break;
        if (depth == 0 || (depth == 1 && c == '(')) continue;
        if (c == '\n') same_line = false;
        if (piece.kind == Piece::comment) {
            const bool beside = same_line && trimmed(now.text).empty() && !found.empty();
            add_comment(beside ? found.back() : now, piece.text);
        } else if (depth == 1 && c == ',') {
            close();
            same_line = true;
        } else {
            now.text += piece.text;
        }
    }
    close();
    return found;
}

std::string comment_above(std::string_view sql, std::string_view table) {
    const std::regex create(
        R"(CREATE\s+TABLE\s+(IF\s+NOT\s+EXISTS\s+)?["`\[]?)" + std::string(table) + R"(["`\]]?\s*\()",
        std::regex::icase);
    std::cmatch match;
    if (!std::regex_search(sql.data(), sql.data() + sql.size(), match, create)) return {};
    std::string_view before = sql.substr(0, static_cast<std::size_t>(match.position()));
    std::string comment;
    while (!before.empty()) {
        before.remove_suffix(before.back() == '\n' ? 1 : 0);
        const auto start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
        const auto line = trimmed(before.substr(start));
        if (line.substr(0, 2) != "--") break;
        comment = std::string(trimmed(line.substr(2))) + (comment.empty() ? "" : " ") + comment;
        before = before.substr(0, start);
    }
    return comment;
}

std::vector<std::string> checks_in(std::string_view definition) {
    std::vector<std::string> found;
    for (auto from = after_word(definition, "CHECK"); from != std::string_view::npos;
         from = after_word(definition, "CHECK")) {
        definition.remove_prefix(from);
        int depth = 0;
        std::size_t start = 0;
        for (std::size_t at = 0; at < definition.size();) {
            const auto piece = piece_at(definition, at);
            if (piece.kind != Piece::plain) continue;
            if (piece.text[0] == '(' && ++depth == 1) start = at;
            if (piece.text[0] != ')' || --depth != 0) continue;
            found.emplace_back(trimmed(definition.substr(start, at - 1 - start)));
            definition.remove_prefix(at);
            break;
        }
    }
    return found;
}

std::vector<std::string> choices_in(std::string_view expression, std::string_view column) {
    const std::string text(expression);
    static const std::regex list(R"(\s*(\w+)\s+IN\s*\(((?:\s*'[^']*'\s*,?)+)\)\s*)", std::regex::icase);
    static const std::regex word("'([^']*)'");
    std::smatch match;
    std::vector<std::string> found;
    if (!std::regex_match(text, match, list) || !same_word(match[1].str(), column)) return found;
    const std::string words = match[2];
    for (std::sregex_iterator at(words.begin(), words.end(), word), end; at != end; ++at) found.push_back((*at)[1]);
    return found;
}

std::vector<SqlBound> bounds_in(std::string_view expression, std::string_view column) {
    const std::string text(expression);
    static const std::regex comparison(R"(\s*(\w+)\s*(>=|<=|>|<)\s*(-?[0-9.]+(?:[eE][-+]?[0-9]+)?)\s*)");
    static const std::regex between(R"(\s*(\w+)\s+BETWEEN\s+(-?[0-9.]+)\s+AND\s+(-?[0-9.]+)\s*)", std::regex::icase);
    static const std::regex both(R"((.+)\s+AND\s+(.+))", std::regex::icase);
    std::smatch match;
    if (std::regex_match(text, match, comparison) && same_word(match[1].str(), column))
        return {{std::strtod(match[3].str().c_str(), nullptr), match[2].str()[0] == '>', match[2].length() == 1}};
    if (std::regex_match(text, match, between) && same_word(match[1].str(), column))
        return {{std::strtod(match[2].str().c_str(), nullptr), true, false},
                {std::strtod(match[3].str().c_str(), nullptr), false, false}};
    if (std::regex_match(text, match, both)) {
        const std::string left = match[1], right = match[2];
        auto bounds = bounds_in(left, column);
        const auto more = bounds_in(right, column);
        if (bounds.empty() || more.empty()) return {};
        bounds.insert(bounds.end(), more.begin(), more.end());
        return bounds;
    }
    return {};
}

}  // namespace casebound
