#include "core/book/xml_pieces.h"

#include <expat.h>

#include <exception>
#include <memory>
#include <new>

#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

constexpr int most_depth = 256;
constexpr std::int64_t most_piece_bytes = std::int64_t{8} << 20;  // one tag with its attributes

std::string_view plain(const char* name) {
    const std::string_view whole(name);
    const auto colon = whole.rfind(':');
    return colon == std::string_view::npos ? whole : whole.substr(colon + 1);
}

class Parser {
public:
    Parser(XmlEvents& events, std::string_view place)
        : parser_(XML_ParserCreate("UTF-8"), XML_ParserFree), events_(events), place_(place) {
        if (!parser_) throw std::bad_alloc();
        XML_SetUserData(parser_.get(), this);
        XML_SetElementHandler(parser_.get(), on_start, on_end);
        XML_SetCharacterDataHandler(parser_.get(), on_text);
        XML_SetStartDoctypeDeclHandler(parser_.get(), on_doctype);
    }

    bool take(std::string_view bytes) {
        fed_ += static_cast<std::int64_t>(bytes.size());
        check(XML_Parse(parser_.get(), bytes.data(), static_cast<int>(bytes.size()), 0));
        if (!stopped_ && fed_ - XML_GetCurrentByteIndex(parser_.get()) > most_piece_bytes)
            throw Error(Exit::bad_data,
                        fmt::format("{}: one piece of it is larger than {} MB: this is not a list of parts", place_,
                                    most_piece_bytes >> 20));
        return !stopped_;
    }
    void finish() {
        if (!stopped_) check(XML_Parse(parser_.get(), "", 0, 1));
    }

private:
    void check(XML_Status status) {
        if (failure_) std::rethrow_exception(failure_);
        if (status == XML_STATUS_OK || stopped_) return;
        if (XML_GetErrorCode(parser_.get()) == XML_ERROR_NO_MEMORY) throw std::bad_alloc();
        throw Error(Exit::bad_data, fmt::format("{}: damaged at line {}: {}: save it again, or get the file again",
                                                place_, XML_GetCurrentLineNumber(parser_.get()),
                                                XML_ErrorString(XML_GetErrorCode(parser_.get()))));
    }

    // Nothing may be thrown through the parser, which is C.
    template <class Call> void guarded(Call call) {
        if (stopped_ || failure_) return;
        try {
            call();
            stopped_ = events_.enough();
        } catch (...) { failure_ = std::current_exception(); }
        if (stopped_ || failure_) XML_StopParser(parser_.get(), XML_FALSE);
    }
    [[noreturn]] void refuse(std::string_view what) const {
        throw Error(Exit::bad_data, fmt::format("{}: {}: no spreadsheet writes this", place_, what));
    }

    static Parser& of(void* self) { return *static_cast<Parser*>(self); }
    static void on_start(void* self, const char* name, const char** attributes) {
        auto& parser = of(self);
        parser.guarded([&] {
            if (++parser.depth_ > most_depth) parser.refuse(fmt::format("nested more than {} deep", most_depth));
            parser.events_.start(plain(name), XmlAttributes(attributes));
        });
    }
    static void on_end(void* self, const char* name) {
        auto& parser = of(self);
        --parser.depth_;
        parser.guarded([&] { parser.events_.end(plain(name)); });
    }
    static void on_text(void* self, const char* text, int size) {
        auto& parser = of(self);
        parser.guarded([&] { parser.events_.text({text, static_cast<std::size_t>(size)}); });
    }
    static void on_doctype(void* self, const char*, const char*, const char*, int) {
        auto& parser = of(self);
        parser.guarded([&] { parser.refuse("it declares a document type"); });
    }

    std::unique_ptr<XML_ParserStruct, decltype(&XML_ParserFree)> parser_;
    XmlEvents& events_;
    std::string_view place_;
    std::exception_ptr failure_;
    std::int64_t fed_ = 0;
    int depth_ = 0;
    bool stopped_ = false;
};

}  // namespace

std::string_view XmlAttributes::get(std::string_view name) const {
    for (const char** at = pairs_; *at; at += 2)
        if (plain(*at) == name) return at[1];
    return {};
}

bool XmlAttributes::any(std::string_view name, std::string_view value) const {
    for (const char** at = pairs_; *at; at += 2)
        if (plain(*at) == name && value == at[1]) return true;
    return false;
}

void read_xml(const XmlSource& source, XmlEvents& events, std::string_view place) {
    Parser parser(events, place);
    source([&](std::string_view bytes) { return parser.take(bytes); });
    parser.finish();
}

}  // namespace casebound
