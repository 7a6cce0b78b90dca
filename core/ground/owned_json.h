// A JSON document whose end takes no memory: the library's own destructor takes some, may not fail, and so ends the
// program where it gets none.
#pragma once

#include <utility>

#include <nlohmann/json.hpp>

namespace casebound {

// Leaves it empty, from the innermost outwards: what is empty, and what holds no others, is given back without any.
// As deep as the document, which its reader bounds.
inline void dismantle(nlohmann::ordered_json& json) noexcept {
    if (!json.is_structured()) return;
    for (auto& inner : json) dismantle(inner), inner = nullptr;
    json.clear();
}

class OwnedJson {
public:
    OwnedJson() = default;
    OwnedJson(nlohmann::ordered_json json) : json_(std::move(json)) {}
    OwnedJson(OwnedJson&& other) noexcept : json_(std::move(other.json_)) {}
    OwnedJson& operator=(OwnedJson&& other) noexcept {
        std::swap(json_, other.json_);
        return *this;
    }
    ~OwnedJson() { dismantle(json_); }

    const nlohmann::ordered_json& operator*() const { return json_; }
    nlohmann::ordered_json& operator*() { return json_; }
    const nlohmann::ordered_json* operator->() const { return &json_; }

private:
    nlohmann::ordered_json json_;
};

}  // namespace casebound
