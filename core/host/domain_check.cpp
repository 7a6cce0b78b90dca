#include "core/host/domain_check.h"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/store/domain_schema.h"

namespace casebound {

namespace {

bool is_joined_by(char joint, std::string_view name) {
    const auto lower = [](char c) { return c >= 'a' && c <= 'z'; };
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    char before = joint;
    for (const char c : name) {
        if (!lower(c) && !digit(c) && c != joint) return false;
        if (c == joint && before == joint) return false;
        before = c;
    }
    return !name.empty() && lower(name.front()) && before != joint;
}

class Faults {
public:
    void add(std::string fault) { all_.push_back(std::move(fault)); }
    void name(std::string_view what, std::string_view name, bool well_formed, std::string_view form) {
        if (!well_formed) add(fmt::format("{} `{}` is not {}: rename it", what, name, form));
        if (!seen_.insert(fmt::format("{} `{}`", what, name)).second)
            add(fmt::format("{} `{}` is declared twice: keep one", what, name));
    }
    void refuse_if_any() const {
        if (!all_.empty()) throw Error(Exit::refused, all_);
    }

private:
    std::vector<std::string> all_;
    std::set<std::string> seen_;
};

void check_attribute(const Attribute& attribute, Faults& faults) {
    faults.name("attribute", attribute.name, is_snake_case(attribute.name), "snake_case");
    const auto lacks = [&](std::string_view what) {
        faults.add(fmt::format("attribute `{}` {}", attribute.name, what));
    };
    if (attribute.title.empty()) lacks("has no title: say what it is");
    if (attribute.how.empty()) lacks("does not say how to find it out: say it in one line");
    if (!(attribute.minutes > 0)) lacks("takes no time to find out: give minutes above 0");
    if (!(attribute.tolerance >= 0)) lacks("has a tolerance below 0: give 0 or more");
}

void check_vocabulary(const Vocabulary& vocabulary, Faults& faults) {
    for (const auto& attribute : vocabulary.attributes) check_attribute(attribute, faults);
    for (const auto& kind : vocabulary.item_kinds) {
        faults.name("item kind", kind.name, is_kebab_case(kind.name), "kebab-case");
        if (kind.title.empty() || kind.unit.empty())
            faults.add(fmt::format("item kind `{}` has no title or no unit: give both", kind.name));
    }
    for (const auto& role : vocabulary.roles) {
        faults.name("role", role.name, is_kebab_case(role.name), "kebab-case");
        if (role.title.empty() || role.item_kind.empty())
            faults.add(fmt::format("role `{}` has no title or no item kind: give both", role.name));
    }
}

void check_input(const Inquiry& inquiry, const Input& input, Faults& faults) {
    const auto wrong = [&](std::string_view what) {
        faults.add(fmt::format("input `{}` of inquiry `{}` {}", input.name, inquiry.name, what));
    };
    if (input.name.empty()) wrong("has no name: give it one");
    if (input.kind == Input::Kind::choice && input.choices.empty()) wrong("is a choice of nothing: list the choices");
    if (!(input.min <= input.max)) wrong("has no valid range: give min at most max");
}

void check_inquiries(const std::vector<Inquiry>& inquiries, Faults& faults) {
    for (const auto& inquiry : inquiries) {
        faults.name("inquiry", inquiry.name, is_kebab_case(inquiry.name), "kebab-case");
        if (!inquiry.run) faults.add(fmt::format("inquiry `{}` has no computation: set its `run`", inquiry.name));
        for (const auto& input : inquiry.inputs) {
            faults.name(fmt::format("inquiry `{}`: input", inquiry.name), input.name, true, "");
            check_input(inquiry, input, faults);
        }
    }
}

}  // namespace

bool is_snake_case(std::string_view name) { return is_joined_by('_', name); }
bool is_kebab_case(std::string_view name) { return is_joined_by('-', name); }

void check_domain(const Domain& domain, std::string_view name, const ProbeSteps& step) {
    Faults faults;
    step("in title()");
    if (domain.title().empty()) faults.add("it has no title: say in words what it is about");
    step("in vocabulary()");
    check_vocabulary(domain.vocabulary(), faults);
    step("in schema()");
    const std::string schema{domain.schema()};
    step("in inquiries()");
    check_inquiries(domain.inquiries(), faults);
    step("after its last answer");
    faults.refuse_if_any();
    check_domain_schema(name, schema);
}

}  // namespace casebound
