// XML read piece by piece, as it is unpacked: elements with their attributes, and text. Names come without their prefix.
// A document type, and so every entity of its own, is refused; so is what is nested too deep or one piece too large.
#pragma once

#include <functional>
#include <string_view>

namespace casebound {

class XmlAttributes {
public:
    explicit XmlAttributes(const char** pairs) : pairs_(pairs) {}
    std::string_view get(std::string_view name) const;              // "" when it is not there; valid within start()
    bool any(std::string_view name, std::string_view value) const;  // with whatever prefix

private:
    const char** pairs_;
};

class XmlEvents {
public:
    virtual ~XmlEvents() = default;
    virtual void start(std::string_view name, const XmlAttributes& attributes) = 0;
    virtual void end(std::string_view name) = 0;
    virtual void text(std::string_view part) = 0;  // in parts of any length
    virtual bool enough() const { return false; }  // nothing more is wanted
};

// Calls `source` with what takes the bytes, in order; it returns false when no more are wanted. `place` is for messages.
// Throws Error(bad_data), and whatever the events throw.
using XmlSource = std::function<void(const std::function<bool(std::string_view)>& take)>;
void read_xml(const XmlSource& source, XmlEvents& events, std::string_view place);

}  // namespace casebound
