#include "core/host/domain_check.h"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/units.h"
#include "core/reason/vocabulary.h"
#include "core/store/domain_schema.h"
#include "core/store/domain_schema_laws.h"

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
    void unit(std::string_view what, std::string_view unit) {
        if (!unit.empty() && !known_unit(unit))
            add(fmt::format("{} has the unit `{}`, which core does not know: write one of mm, L, N m, degC, ohm, ...",
                            what, unit));
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
    faults.unit(fmt::format("attribute `{}`", attribute.name), attribute.unit);
}

bool is_declared(const std::string& kind, const Vocabulary& vocabulary) {
    return Vocabularies().item_kind(kind) || std::any_of(vocabulary.item_kinds.begin(), vocabulary.item_kinds.end(),
                                                         [&](const ItemKind& one) { return one.name == kind; });
}

void check_vocabulary(const Vocabulary& vocabulary, Faults& faults) {
    for (const auto& attribute : vocabulary.attributes) check_attribute(attribute, faults);
    for (const auto& kind : vocabulary.item_kinds) {
        faults.name("item kind", kind.name, is_kebab_case(kind.name), "kebab-case");
        if (kind.title.empty() || kind.unit.empty())
            faults.add(fmt::format("item kind `{}` has no title or no unit: give both", kind.name));
        if (kind.unit != "each") faults.unit(fmt::format("item kind `{}`", kind.name), kind.unit);
    }
    for (const auto& role : vocabulary.roles) {
        faults.name("role", role.name, is_kebab_case(role.name), "kebab-case");
        if (role.title.empty() || role.item_kind.empty())
            faults.add(fmt::format("role `{}` has no title or no item kind: give both", role.name));
        else if (!is_declared(role.item_kind, vocabulary))
            faults.add(
                fmt::format("role `{}` takes items of kind `{}`, which is not declared: declare it among the item "
                            "kinds",
                            role.name, role.item_kind));
    }
}

void check_input(const Inquiry& inquiry, const Input& input, Faults& faults) {
    const auto wrong = [&](std::string_view what) {
        faults.add(fmt::format("input `{}` of inquiry `{}` {}", input.name, inquiry.name, what));
    };
    if (input.name.empty()) wrong("has no name: give it one");
    if (input.kind == Input::Kind::choice && input.choices.empty()) wrong("is a choice of nothing: list the choices");
    if (!(input.min <= input.max)) wrong("has no valid range: give min at most max");
    faults.unit(fmt::format("input `{}` of inquiry `{}`", input.name, inquiry.name), input.unit);
}

const Input* input_of(const Inquiry& inquiry, std::string_view name) {
    const auto at = std::find_if(inquiry.inputs.begin(), inquiry.inputs.end(),
                                 [&](const Input& one) { return one.name == name; });
    return at == inquiry.inputs.end() ? nullptr : &*at;
}

// Which tables and columns an inquiry's inputs may name: core's, the domain's own, and any of a table it reads.
class Readable {
public:
    Readable(TableColumns columns, std::vector<std::string> reads)
        : columns_(std::move(columns)), reads_(std::move(reads)) {}

    void check(const Inquiry& inquiry, Faults& faults) const {
        for (const auto& input : inquiry.inputs) {
            const auto of = fmt::format("input `{}` of inquiry `{}`", input.name, inquiry.name);
            if (!input.key_of.empty()) check_column(of, input.key_of, "group_key", faults);
            if (input.recorded) check_recorded(of, inquiry, *input.recorded, faults);
        }
    }

    void check(const Role& role, Faults& faults) const {
        const auto of = fmt::format("what decides role `{}`", role.name);
        if (role.decided_by.columns.empty()) return;
        check_column(of, role.decided_by.table, "group_key", faults);
        for (const auto& one : role.decided_by.columns) check_column(of, role.decided_by.table, one.column, faults);
    }

private:
    void check_recorded(const std::string& of, const Inquiry& inquiry, const Recorded& recorded, Faults& faults) const {
        check_column(of, recorded.table, recorded.column, faults);
        for (const auto& [column, input] : recorded.match) {
            check_column(of, recorded.table, column, faults);
            if (!input_of(inquiry, input))
                faults.add(fmt::format(
                    "{} matches the input `{}`, which the inquiry does not have: name one that it has", of, input));
        }
    }
    void check_column(const std::string& of, const std::string& table, const std::string& column,
                      Faults& faults) const {
        if (std::find(reads_.begin(), reads_.end(), table) != reads_.end()) return;
        const auto found = columns_.find(table);
        if (found == columns_.end())
            faults.add(
                fmt::format("{} is recorded in `{}`, which is no table of this domain and not in its reads(): name "
                            "it there, or take one of its own",
                            of, table));
        else if (!found->second.contains(column))
            faults.add(fmt::format("{} is recorded in the column `{}`, which {} does not have: take one of {}", of,
                                   column, table, fmt::join(found->second, ", ")));
    }

    TableColumns columns_;
    std::vector<std::string> reads_;
};

void check_services(const std::vector<ServiceInquiry>& services, const Vocabulary& vocabulary, Faults& faults) {
    for (const auto& service : services) {
        if (std::none_of(vocabulary.roles.begin(), vocabulary.roles.end(),
                         [&](const Role& role) { return role.name == service.role; }))
            faults.add(fmt::format("service of `{}`, which is no role of this domain: declare it", service.role));
        for (const auto& input :
             {service.today, service.last_changed, service.last_at_km, service.odometer_km, service.km_per_year})
            if (!input.empty() && !input_of(service.inquiry, input))
                faults.add(fmt::format("service of `{}` fills the input `{}`, which `{}` does not have", service.role,
                                       input, service.inquiry.name));
    }
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
    const auto vocabulary = domain.vocabulary();
    check_vocabulary(vocabulary, faults);
    step("in schema()");
    const std::string schema{domain.schema()};
    step("in reads()");
    auto reads = domain.reads();
    step("in inquiries()");
    const auto inquiries = domain.inquiries();
    check_inquiries(inquiries, faults);
    step("in services_due()");
    check_services(domain.services_due(), vocabulary, faults);
    step("after its last answer");
    faults.refuse_if_any();
    check_domain_schema(name, schema);
    for (auto& fault : schema_faults(name, schema)) faults.add(std::move(fault));
    const Readable readable(readable_columns(name, schema), std::move(reads));
    for (const auto& inquiry : inquiries) readable.check(inquiry, faults);
    for (const auto& role : vocabulary.roles) readable.check(role, faults);
    faults.refuse_if_any();
}

}  // namespace casebound
