#include "core/page/page_form.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/page/page_once.h"

namespace casebound {

namespace {

std::string id_of(const Form& form, std::string_view part) { return form_id(form.key, part); }

bool same_name(std::string_view a, std::string_view b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](char x, char y) { return x == y || ((x == '-' || x == '_') && (y == '-' || y == '_')); });
}

bool is_sent(Field::Kind kind) {
    return kind == Field::Kind::file || kind == Field::Kind::camera || kind == Field::Kind::pictures;
}

bool is_about(const std::string& fault, const Field& field) {
    return same_name(fault.substr(0, std::min(fault.find(':'), fault.size())), field.name);
}

// One form while it is written.
class Writer {
public:
    Writer(Html& html, const Visit& visit, const Form& form) : html_(html), visit_(visit), form_(form) {
        refused_ = visit.refused && visit.refused->form == form.key;
    }

    void write() {
        HtmlAttributes attributes{{"class", form_.writes() ? "form writes" : "form"},
                                  {"id", id_of(form_, "-form")},
                                  {"method", form_.writes() ? "post" : "get"},
                                  {"action", form_.writes() ? visit_.url() : form_.goes_to}};
        const auto sends = [](const Field& field) { return is_sent(field.kind); };
        if (std::any_of(form_.fields.begin(), form_.fields.end(), sends) ||
            std::any_of(form_.more.begin(), form_.more.end(), sends))
            attributes.emplace_back("enctype", "multipart/form-data");
        if (!form_.title.empty()) attributes.emplace_back("aria-labelledby", id_of(form_, "-title"));
        const auto scope = html_.in("form", attributes);
        if (!form_.title.empty()) html_.element("h2", form_.title, {{"id", id_of(form_, "-title")}});
        hidden();
        faults();
        for (const auto& field : form_.fields) write(field);
        for (const auto& field : form_.more)
            if (field.required) write(field);  // in a closed fold it stops the sending, and nobody sees why
        more();
        const auto line = html_.in("p", {{"class", "buttons"}});
        if (form_.answers.empty()) html_.element("button", form_.button, {{"type", "submit"}});
        for (const auto& [value, words] : form_.answers)
            html_.element("button", words,
                          {{"type", "submit"}, {"name", "value"}, {"value", value}, {"class", "answer"}});
    }

private:
    void hidden() {
        if (form_.writes()) {
            html_.empty("input", {{"type", "hidden"}, {"name", "token"}, {"value", visit_.request.form_token}});
            html_.empty("input", {{"type", "hidden"}, {"name", "form"}, {"value", form_.key}});
            html_.empty("input", {{"type", "hidden"}, {"name", "once"}, {"value", new_form_id()}});
        }
        for (const auto& [name, value] : form_.hidden)
            html_.empty("input", {{"type", "hidden"}, {"name", name}, {"value", value}});
    }

    bool has_field(const std::string& fault) const {
        const auto about = [&](const Field& field) { return is_about(fault, field); };
        return std::any_of(form_.fields.begin(), form_.fields.end(), about) ||
               std::any_of(form_.more.begin(), form_.more.end(), about);
    }

    // Those that stand beside no field.
    void faults() {
        if (!refused_) return;
        visit_.refused->shown = true;
        const auto box = html_.in("div", {{"class", "refused"}, {"id", id_of(form_, "-refused")}, {"role", "alert"}});
        html_.element("p", form_.writes() ? "Not done. Nothing was changed." : "Not answered.");
        std::vector<std::string> others;
        for (const auto& fault : visit_.refused->faults)
            if (!has_field(fault)) others.push_back(fault);
        if (others.empty()) return;
        const auto list = html_.in("ul");
        for (const auto& fault : others) html_.element("li", fault);
    }

    void more() {
        const auto folded = [](const Field& field) { return !field.required; };
        if (std::none_of(form_.more.begin(), form_.more.end(), folded)) return;
        const bool open = std::any_of(form_.more.begin(), form_.more.end(), [&](const Field& field) {
            return folded(field) && (!fault_of(field).empty() || value_of(field) != field.value);
        });
        const auto details = html_.in("details", open ? HtmlAttributes{{"open", ""}} : HtmlAttributes{});
        html_.element("summary", "More to say");
        for (const auto& field : form_.more)
            if (folded(field)) write(field);
    }

    std::string fault_of(const Field& field) const {
        if (!refused_) return "";
        for (const auto& fault : visit_.refused->faults)
            if (is_about(fault, field)) return fault;
        return "";
    }

    // Its field stands above it: the name need not be said.
    static std::string without_name(const std::string& fault) {
        return fault.substr(fault.find_first_not_of(' ', fault.find(':') + 1));
    }

    // What a refused form, or the address, says; else what the field begins with.
    std::string value_of(const Field& field) const {
        const auto& given = form_.writes() ? visit_.request.form : visit_.request.query;
        if (form_.writes() && !refused_) return field.value;
        for (const auto& [name, value] : given)
            if (name == field.name) return value;
        return refused_ && field.kind == Field::Kind::check ? "" : field.value;
    }

    std::string described_by(const Field& field) const {
        std::vector<std::string> ids;
        if (!field.hint.empty()) ids.push_back(id_of(form_, field.name + "-hint"));
        if (!fault_of(field).empty()) ids.push_back(id_of(form_, field.name + "-fault"));
        else if (refused_ && &field == &form_.fields.front()) ids.push_back(id_of(form_, "-refused"));
        return fmt::format("{}", fmt::join(ids, " "));
    }

    HtmlAttributes common(const Field& field, const std::string& id) const {
        HtmlAttributes attributes{{"id", id}, {"name", field.name}};
        if (const auto ids = described_by(field); !ids.empty()) attributes.emplace_back("aria-describedby", ids);
        if (!fault_of(field).empty()) attributes.emplace_back("aria-invalid", "true");
        if (field.required) attributes.emplace_back("required", "");
        return attributes;
    }

    void notes(const Field& field) {
        if (!field.hint.empty())
            html_.element("p", field.hint, {{"class", "hint"}, {"id", id_of(form_, field.name + "-hint")}});
        if (const auto fault = fault_of(field); !fault.empty())
            html_.element("p", without_name(fault), {{"class", "fault"}, {"id", id_of(form_, field.name + "-fault")}});
    }

    void label(const Field& field, const std::string& id) {
        const auto scope = html_.in("label", {{"for", id}});
        html_.text(field.label);
        if (!field.unit.empty())
            html_.element("span", fmt::format(", {}", unit_words(field.unit)), {{"class", "unit"}});
        if (field.required) html_.element("span", " (needed)", {{"class", "unit"}});
    }

    void write(const Field& field) {
        if (field.kind == Field::Kind::one_of) return write_one_of(field);
        if (field.kind == Field::Kind::check) return write_check(field);
        const auto scope = html_.in("div", {{"class", "field"}});
        const auto id = id_of(form_, field.kind == Field::Kind::pictures ? field.name + "-there" : field.name);
        label(field, id);
        notes(field);
        auto attributes = common(field, id);
        if (field.kind == Field::Kind::choice) return write_choice(field, attributes);
        if (is_sent(field.kind)) {
            attributes.emplace_back("type", "file");
            if (field.kind != Field::Kind::file) attributes.emplace_back("accept", "image/*");
            if (field.kind == Field::Kind::camera) attributes.emplace_back("capture", "environment");
            if (field.kind == Field::Kind::pictures) attributes.emplace_back("multiple", "");
            return html_.empty("input", attributes);
        }
        attributes.emplace_back("type", field.kind == Field::Kind::date ? "date" : "text");
        if (field.kind == Field::Kind::number) attributes.emplace_back("class", "number");
        attributes.emplace_back("value", value_of(field));
        attributes.emplace_back("autocomplete", "off");
        html_.empty("input", attributes);
    }

    void write_choice(const Field& field, const HtmlAttributes& attributes) {
        const auto value = value_of(field);
        const auto select = html_.in("select", attributes);
        const bool listed = std::any_of(field.options.begin(), field.options.end(),
                                        [&](const auto& one) { return one.first == value; });
        if (!listed && !value.empty())
            html_.element("option", value, {{"value", value}, {"selected", ""}});  // as typed
        for (const auto& [key, words] : field.options) {
            HtmlAttributes option{{"value", key}};
            if (key == value) option.emplace_back("selected", "");
            html_.element("option", words, option);
        }
    }

    void write_one_of(const Field& field) {
        const auto set = html_.in("fieldset", {{"class", "field one-of"}});
        html_.element("legend", field.label + (field.unit.empty() ? "" : ", " + unit_words(field.unit)));
        notes(field);
        const auto value = value_of(field);
        std::size_t nth = 0;
        for (const auto& [key, words] : field.options) {
            auto attributes = common(field, id_of(form_, fmt::format("{}-{}", field.name, ++nth)));
            attributes.emplace_back("type", "radio");
            attributes.emplace_back("value", key);
            if (key == value) attributes.emplace_back("checked", "");
            const auto one = html_.in("label", {{"class", "tick"}});
            html_.empty("input", attributes);
            html_.element("span", words);
        }
    }

    void write_check(const Field& field) {
        const auto scope = html_.in("div", {{"class", "field"}});
        notes(field);
        auto attributes = common(
            field, id_of(form_, field.name + "-" + (field.options.empty() ? "yes" : field.options.front().first)));
        attributes.emplace_back("type", "checkbox");
        const auto key = field.options.empty() ? std::string("yes") : field.options.front().first;
        attributes.emplace_back("value", key);
        if (ticked(field, key)) attributes.emplace_back("checked", "");
        const auto one = html_.in("label", {{"class", "tick"}});
        html_.empty("input", attributes);
        html_.element("span", field.label);
    }

    bool ticked(const Field& field, const std::string& key) const {
        if (form_.writes() && !refused_) return field.value == key;
        const auto& given = form_.writes() ? visit_.request.form : visit_.request.query;
        return field.value == key || std::any_of(given.begin(), given.end(), [&](const auto& one) {
                   return one.first == field.name && one.second == key;
               });
    }

    Html& html_;
    const Visit& visit_;
    const Form& form_;
    bool refused_ = false;
};

}  // namespace

std::string form_id(std::string_view key, std::string_view part) {
    auto id = fmt::format("{}-{}", key, part);
    for (auto& c : id)
        if (!std::isalnum(static_cast<unsigned char>(c))) c = '-';
    return id;
}

void write_form(Html& html, const Visit& visit, const Form& form) {
    if (form.writes() && !visit.request.may_edit) return;
    Writer(html, visit, form).write();
}

std::vector<Field> photo_fields() {
    return {{"photo", "Take a photo of it", Field::Kind::camera, "",
             "It is kept without the place where it was taken. At most 16 MB."},
            {"photo", "Or photos that are there already", Field::Kind::pictures}};
}

std::vector<Field> with_photos(std::vector<Field> fields) {
    for (auto& field : photo_fields()) fields.push_back(std::move(field));
    return fields;
}

std::vector<Field> evidence_fields() {
    auto fields = with_photos({{"evidence",
                                "How do you know?",
                                Field::Kind::choice,
                                "",
                                "",
                                "",
                                {{"", "choose"},
                                 {"measured", "measured it myself"},
                                 {"read", "read it off the vehicle or its papers"},
                                 {"seller said", "the seller said so"},
                                 {"said", "not said how"},
                                 {"assumed", "assumed"}},
                                true},
                               {"date", "When", Field::Kind::date, "", "Today when left empty."}});
    fields.push_back({"note", "Note"});
    return fields;
}

std::vector<std::pair<std::string, std::string>> as_options(const std::vector<std::string>& values) {
    std::vector<std::pair<std::string, std::string>> options;
    for (const auto& value : values) options.emplace_back(value, spaced(value));
    return options;
}

void write_currency_hint(Html& html, const Visit& visit) {
    if (!visit.currency().empty()) return;
    const auto line = html.in("p", {{"class", "hint"}});
    html.text("Prices have no currency yet: ");
    html.link("/settings", "set it once");
    html.text(".");
}

}  // namespace casebound
