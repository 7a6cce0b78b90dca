// Writes HTML that is also well-formed XML. Text and attribute values are always escaped, whatever they are, and
// every element that was opened is closed. There is no way to put markup in from outside.
#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace casebound {

using HtmlAttributes = std::vector<std::pair<std::string_view, std::string>>;

// Escaped for text and for quoted attributes; what no document may hold (control characters, broken UTF-8) becomes U+FFFD.
std::string html_escaped(std::string_view text);

// One part of a path or query: everything but letters, digits and "-._~" as %XX.
std::string url_escaped(std::string_view text);

class Html {
public:
    // Closes its element at the end of the scope.
    class Scope {
    public:
        explicit Scope(Html& html) : html_(html) {}
        ~Scope() { html_.close(); }
        Scope(const Scope&) = delete;
        Scope& operator=(const Scope&) = delete;

    private:
        Html& html_;
    };

    // Requires: names of elements and attributes are the program's own.
    [[nodiscard]] Scope in(std::string_view element, const HtmlAttributes& attributes = {});
    void open(std::string_view element, const HtmlAttributes& attributes = {});
    void close();
    void empty(std::string_view element, const HtmlAttributes& attributes = {});  // <input .../>
    void text(std::string_view text) { out_ += html_escaped(text); }
    void element(std::string_view element, std::string_view text, const HtmlAttributes& attributes = {});
    void link(const std::string& to, std::string_view text, const HtmlAttributes& attributes = {});
    void append(Html&& other);  // whole elements, written by another Html

    std::size_t size() const { return out_.size(); }
    std::string take();  // closes what is open

private:
    void start(std::string_view element, const HtmlAttributes& attributes);
    std::string out_;
    std::vector<std::string> opened_;
};

}  // namespace casebound
