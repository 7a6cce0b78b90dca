// A page as a strict reader sees it: XML by the letter for what the pages use (elements, quoted attributes, the five
// entities and numbers). Says what is wrong and where, instead of mending it as a browser would.
#pragma once

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::tests {

struct Element {
    std::string name, text;  // text: its own and that of what is in it, decoded
    std::map<std::string, std::string, std::less<>> attributes;
    std::vector<std::size_t> within;  // elements around it, outermost first
    bool has(std::string_view name_of) const { return attributes.find(name_of) != attributes.end(); }
    std::string attribute(std::string_view name_of) const {
        const auto found = attributes.find(name_of);
        return found == attributes.end() ? "" : found->second;
    }
};

class Document {
public:
    explicit Document(std::string_view text) : text_(text) { read(); }

    std::string fault;  // "" when it is well-formed
    std::vector<Element> elements;

    std::vector<const Element*> all(std::string_view name) const {
        std::vector<const Element*> found;
        for (const auto& one : elements)
            if (one.name == name) found.push_back(&one);
        return found;
    }
    const Element* by_id(std::string_view id) const {
        for (const auto& one : elements)
            if (one.attribute("id") == id) return &one;
        return nullptr;
    }
    bool inside(const Element& element, std::string_view name) const {
        return std::any_of(element.within.begin(), element.within.end(),
                           [&](std::size_t i) { return elements[i].name == name; });
    }

private:
    void fail(const std::string& what) {
        if (fault.empty())
            fault = what + " at byte " + std::to_string(at_) + ": " +
                    std::string(text_.substr(at_ > 30 ? at_ - 30 : 0, 80));
    }
    bool next(std::string_view word) {
        if (text_.substr(at_, word.size()) != word) return false;
        at_ += word.size();
        return true;
    }
    static bool name_char(char c) {
        return std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_' || c == ':';
    }
    std::string name() {
        const auto from = at_;
        while (at_ < text_.size() && name_char(text_[at_])) ++at_;
        if (from == at_) fail("a name is missing");
        return std::string(text_.substr(from, at_ - from));
    }

    std::string entity() {
        static const std::map<std::string, std::string, std::less<>> known{
            {"amp", "&"}, {"lt", "<"}, {"gt", ">"}, {"quot", "\""}, {"#39", "'"}};
        const auto end = text_.find(';', at_);
        const auto found = end == std::string_view::npos ? known.end()
                                                         : known.find(text_.substr(at_ + 1, end - at_ - 1));
        if (found == known.end()) {
            fail("an ampersand that begins no entity");
            ++at_;
            return "";
        }
        at_ = end + 1;
        return found->second;
    }

    std::string until(char stop) {
        std::string out;
        while (at_ < text_.size() && text_[at_] != stop && fault.empty()) {
            const char c = text_[at_];
            if (c == '&') {
                out += entity();
                continue;
            }
            if (c == '<' || (c == '>' && stop == '<')) fail("a bare angle bracket");
            if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') fail("a control character");
            out += c;
            ++at_;
        }
        return out;
    }

    void tag() {
        Element element;
        element.name = name();
        element.within = open_;
        while (fault.empty() && at_ < text_.size() && text_[at_] == ' ') {
            ++at_;
            const auto key = name();
            if (!next("=\"")) return fail("an attribute that is not quoted");
            const auto value = until('"');
            if (!next("\"")) return fail("an attribute without an end");
            if (!element.attributes.emplace(key, value).second) return fail("an attribute twice: " + key);
        }
        const bool closed = next("/>");
        if (!closed && !next(">")) return fail("a tag without an end");
        elements.push_back(element);
        if (!closed) open_.push_back(elements.size() - 1);
    }

    void close_tag() {
        const auto closing = name();
        if (!next(">")) return fail("an end tag without an end");
        if (open_.empty() || elements[open_.back()].name != closing)
            return fail("an end tag that closes nothing: " + closing);
        open_.pop_back();
    }

    void read() {
        if (!next("<!DOCTYPE html>")) return fail("no doctype");
        while (at_ < text_.size() && fault.empty()) {
            if (next("</")) close_tag();
            else if (next("<")) tag();
            else {
                const auto text = until('<');
                for (const auto i : open_) elements[i].text += text;
            }
        }
        if (fault.empty() && !open_.empty()) fail("not closed: " + elements[open_.back()].name);
    }

    std::string_view text_;
    std::size_t at_ = 0;
    std::vector<std::size_t> open_;
};

}  // namespace casebound::tests
