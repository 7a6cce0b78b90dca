#include "core/html/html.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

namespace casebound {

namespace {

// Bytes of the sound UTF-8 character at the start of `text` that a document may hold; 0 when there is none.
std::size_t sound_character(std::string_view text) {
    const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
    const auto tail = [&](std::size_t i) { return (byte(i) & 0xC0) == 0x80; };
    const unsigned first = byte(0);
    if (first < 0x80) return first >= 0x20 && first != 0x7F ? 1 : first == '\n' || first == '\t' ? 1 : 0;
    if (first >= 0xC2 && first <= 0xDF) return tail(1) && !(first == 0xC2 && byte(1) < 0xA0) ? 2 : 0;
    if (first >= 0xE0 && first <= 0xEF) {
        if (!tail(1) || !tail(2)) return 0;
        const unsigned code = (first & 0xF) << 12 | (byte(1) & 0x3F) << 6 | (byte(2) & 0x3F);
        return code >= 0x800 && !(code >= 0xD800 && code <= 0xDFFF) && code < 0xFFFE ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4 && tail(1) && tail(2) && tail(3)) {
        const unsigned code = (first & 0x7) << 18 | (byte(1) & 0x3F) << 12 | (byte(2) & 0x3F) << 6 | (byte(3) & 0x3F);
        return code >= 0x10000 && code <= 0x10FFFF && (code & 0xFFFE) != 0xFFFE ? 4 : 0;
    }
    return 0;
}

// What stands in a document as it is; most text is nothing else.
bool is_plain(char c) { return c >= ' ' && c < 0x7F && c != '&' && c != '<' && c != '>' && c != '"' && c != '\''; }

}  // namespace

std::string html_escaped(std::string_view text) {
    std::string out;
    out.reserve(text.size() + text.size() / 8);
    while (!text.empty()) {
        const auto plain = static_cast<std::size_t>(std::find_if_not(text.begin(), text.end(), is_plain) -
                                                    text.begin());
        out += text.substr(0, plain);
        text.remove_prefix(plain);
        if (text.empty()) break;
        const auto bytes = sound_character(text);
        switch (text[0]) {
            case '&': out += "&amp;"; break;
            case '<': out += "&lt;"; break;
            case '>': out += "&gt;"; break;
            case '"': out += "&quot;"; break;
            case '\'': out += "&#39;"; break;
            default: out += bytes > 0 ? text.substr(0, bytes) : std::string_view("\xEF\xBF\xBD");
        }
        text.remove_prefix(bytes > 0 ? bytes : 1);
    }
    return out;
}

std::string url_escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        const bool plain = byte < 0x80 && (std::isalnum(byte) || c == '-' || c == '.' || c == '_' || c == '~');
        if (plain) out += c;
        else out += fmt::format("%{:02X}", byte);
    }
    return out;
}

void Html::start(std::string_view element, const HtmlAttributes& attributes) {
    out_ += '<';
    out_ += element;
    for (const auto& [name, value] : attributes) {
        out_ += ' ';
        out_ += name;
        out_ += "=\"";
        out_ += html_escaped(value);
        out_ += '"';
    }
}

Html::Scope Html::in(std::string_view element, const HtmlAttributes& attributes) {
    open(element, attributes);
    return Scope(*this);
}

void Html::open(std::string_view element, const HtmlAttributes& attributes) {
    start(element, attributes);
    out_ += '>';
    opened_.emplace_back(element);
}

void Html::close() {
    if (opened_.empty()) return;
    out_ += "</" + opened_.back() + ">";
    opened_.pop_back();
}

void Html::empty(std::string_view element, const HtmlAttributes& attributes) {
    start(element, attributes);
    out_ += "/>";
}

void Html::element(std::string_view element, std::string_view inside, const HtmlAttributes& attributes) {
    open(element, attributes);
    text(inside);
    close();
}

void Html::link(const std::string& to, std::string_view inside, const HtmlAttributes& attributes) {
    HtmlAttributes all{{"href", to}};
    all.insert(all.end(), attributes.begin(), attributes.end());
    element("a", inside, all);
}

void Html::append(Html&& other) { out_ += other.take(); }

std::string Html::take() {
    while (!opened_.empty()) close();
    return std::move(out_);
}

}  // namespace casebound
