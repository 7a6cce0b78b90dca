#include "core/store/sql_text.h"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <optional>

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

// Reads an expression from its beginning, blanks between any two of its parts. Whatever is asked for and is not there stops
// it: is_done() is then false for good.
class Expression {
public:
    explicit Expression(std::string_view text) : rest_(text) {}

    Expression& is(std::string_view sign) {  // a sign, or a word in either case
        skip_blanks();
        const bool a_word = !sign.empty() && is_word(sign.back());
        const bool here = same_word(rest_.substr(0, sign.size()), sign) &&
                          !(a_word && rest_.size() > sign.size() && is_word(rest_[sign.size()]));
        return take(here ? sign.size() : 0);
    }
    bool has(std::string_view sign) {
        auto ahead = *this;
        ahead.is(sign);
        if (ahead.stopped_) return false;
        *this = ahead;
        return true;
    }
    // `one`, as it is or quoted.
    Expression& name(std::string_view one) {
        skip_blanks();
        const bool quoted = !rest_.empty() && std::string_view("\"`[").find(rest_.front()) != std::string_view::npos;
        if (quoted) rest_.remove_prefix(1);
        is(one);
        if (quoted && !stopped_) take(!rest_.empty() && std::string_view("\"`]").find(rest_.front()) != rest_.npos);
        return *this;
    }
    double number() {
        skip_blanks();
        const auto size = std::min(rest_.find_first_not_of("-+.0123456789eE"), rest_.size());
        double value = 0;
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + size, value);
        take(error == std::errc{} ? static_cast<std::size_t>(end - rest_.data()) : 0);
        return value;
    }
    std::string text() {  // 'between quotes'
        is("'");
        const auto end = rest_.find('\'');
        std::string between(rest_.substr(0, end));
        take(end == std::string_view::npos ? 0 : end + 1);
        return between;
    }
    bool is_stopped() const { return stopped_; }
    bool is_done() {
        skip_blanks();
        return !stopped_ && rest_.empty();
    }

private:
    static bool is_word(char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; }
    void skip_blanks() {
        while (!rest_.empty() && std::isspace(static_cast<unsigned char>(rest_.front()))) rest_.remove_prefix(1);
    }
    Expression& take(std::size_t size) {
        stopped_ = stopped_ || size == 0;
        rest_.remove_prefix(stopped_ ? 0 : size);
        return *this;
    }

    std::string_view rest_;
    bool stopped_ = false;
};

// Where CREATE TABLE of that name begins; npos when nowhere.
std::size_t place_of_table(std::string_view sql, std::string_view table) {
    for (std::size_t at = 0; (at = sql.find_first_of("cC", at)) != std::string_view::npos; ++at) {
        Expression here(sql.substr(at));
        if (here.is("CREATE").is("TABLE").is_stopped()) continue;
        if (here.has("IF")) here.is("NOT").is("EXISTS");
        if (!here.name(table).is("(").is_stopped()) return at;
    }
    return std::string_view::npos;
}

// The last AND with something on either side.
std::optional<std::size_t> last_and(std::string_view text) {
    for (auto at = text.size(); at-- > 1;)
        if (at + 4 < text.size() && same_word(text.substr(at, 3), "AND") &&
            std::isspace(static_cast<unsigned char>(text[at - 1])) &&
            std::isspace(static_cast<unsigned char>(text[at + 3])) && !trimmed(text.substr(0, at)).empty())
            return at;
    return std::nullopt;
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
    const auto at = place_of_table(sql, table);
    if (at == std::string_view::npos) return {};
    std::string_view before = sql.substr(0, at);
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
    Expression list(expression);
    list.is(column).is("IN").is("(");
    std::vector<std::string> found;
    while (!list.is_stopped() && !list.has(")")) {
        found.push_back(list.text());
        list.has(",");
    }
    return list.is_done() ? found : std::vector<std::string>{};
}

std::vector<SqlBound> bounds_in(std::string_view expression, std::string_view column) {
    Expression one(expression);
    one.is(column);
    if (one.has("BETWEEN")) {
        const double least = one.number(), most = one.is("AND").number();
        if (one.is_done()) return {{least, true, false}, {most, false, false}};
    } else {
        const bool minimum = one.has(">"), maximum = !minimum && one.has("<"), exclusive = !one.has("=");
        const double value = one.number();
        if ((minimum || maximum) && one.is_done()) return {{value, minimum, exclusive}};
    }
    const auto at = last_and(expression);
    if (!at) return {};
    auto bounds = bounds_in(expression.substr(0, *at), column);
    const auto more = bounds_in(expression.substr(*at + 3), column);
    if (bounds.empty() || more.empty()) return {};
    bounds.insert(bounds.end(), more.begin(), more.end());
    return bounds;
}

}  // namespace casebound
