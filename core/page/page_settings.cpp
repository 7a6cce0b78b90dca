// The shop's settings, each with what it is, through the command of that name.
#include <algorithm>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

std::string sentence_case(std::string_view text) {
    std::string out(text);
    if (!out.empty()) out[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(out[0])));
    return out;
}

Field field_of(const SettingKind& kind, const ShopSettings& settings) {
    Field field{std::string(kind.key), sentence_case(kind.title)};
    field.value = settings.get(kind.key).value_or("");
    if (kind.number) field.kind = Field::Kind::number;
    if (kind.unit == "currency") field.unit = settings.get("currency").value_or("");
    if (kind.key == "jurisdiction") field.hint = "us-federal, or elsewhere.";
    for (const auto& unit : shown_units()) {
        if (unit.setting != kind.key) continue;
        field.kind = Field::Kind::choice;
        field.label = sentence_case(unit.title);
        field.options.emplace_back("", fmt::format("{}, as recorded", unit_words(unit.choices.front())));
        for (const auto& choice : unit.choices) field.options.emplace_back(choice, unit_words(choice));
    }
    return field;
}

void show_settings(Visit& visit, Page& page) {
    page.title = "Settings";
    page.under = "Set once for every vehicle. Left empty, a setting is not set.";
    const ShopSettings settings(visit.session.shop());
    Form form{"settings", "", "Set them", {}};
    for (const auto& kind : ShopSettings::kinds()) form.fields.push_back(field_of(kind, settings));
    if (visit.request.may_edit) return write_form(page.main, visit, form);
    HtmlTable table(page.main, {"setting", "value"}, "Settings", false);
    for (const auto& field : form.fields) table.row({field.label, field.value.empty() ? "not set" : field.value});
}

// Only what was changed: the rest is not touched. One left empty is taken back.
std::string act_settings(Visit& visit) {
    ShopSettings settings(visit.session.shop());
    Args args;
    std::vector<std::pair<std::string, std::string>> taken_back;
    for (const auto& kind : ShopSettings::kinds()) {
        const auto typed = visit.typed(kind.key);
        if (typed == settings.get(kind.key).value_or("")) continue;
        if (typed.empty()) taken_back.emplace_back(kind.key, "");
        else args.words.push_back(fmt::format("{}={}", dashed(kind.key), typed));
    }
    if (!args.words.empty()) run_command(visit.session, "shop set", args);
    if (!taken_back.empty()) settings.set(taken_back);
    return "";
}

}  // namespace

std::vector<Route> settings_routes() { return {{"/settings", "Settings", show_settings}}; }

std::vector<Action> settings_actions() { return {{"settings", act_settings}}; }

}  // namespace casebound
