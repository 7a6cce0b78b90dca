#include "core/say/json_of.h"

#include <fmt/format.h>

#include "core/reason/vocabulary.h"
#include "core/say/report.h"

namespace casebound {

Json document(const std::string& command) { return Json{{"schema", fmt::format("casebound.{}/1", command)}}; }

Json json_of(const Origin& origin) {
    Json json{{"evidence", evidence_name(origin.evidence)}};
    if (!origin.source.empty()) json["source"] = origin.source;
    if (!origin.pack.empty()) {
        json["pack"] = origin.pack;
        json["file"] = origin.file;
        json["line"] = origin.line;
    }
    return json;
}

Json json_of(const Leaf& leaf) {
    Json json{{"text", leaf.text()}, {"told", leaf.told}, {"redundant", leaf.redundant}};
    json["origin"] = json_of(leaf.origin());
    if (!leaf.photos.empty()) json["photos"] = json_list(leaf.photos);
    return json;
}

Json json_of(const Doubt& doubt) {
    return {{"attribute", doubt.attribute},
            {"reason", doubt.reason},
            {"until", doubt.until},
            {"source", json_of(doubt.source)}};
}

Json json_of(const HeldOrder& held) {
    return {{"domain", held.domain},
            {"reason", held.hold.reason},
            {"until", held.hold.until},
            {"find_out", held.hold.attributes},
            {"source", json_of(held.hold.source)}};
}

namespace {

Json json_of(const std::vector<GoesWith>& others) {
    auto json = Json::array();
    for (const auto& one : others)
        json.push_back({{"group", one.group}, {"role", one.role}, {"quantity", one.quantity}});
    return json;
}

}  // namespace

Json json_of(const GroupAnswer& group) {
    Json json{{"group", group.key},
              {"title", group.title},
              {"verdict", verdict_name(group.verdict)},
              {"configurations", group.on.count()}};
    if (!group.only_part.empty()) json["only_part"] = group.only_part;
    if (!group.goes_with.empty()) json["goes_with"] = json_of(group.goes_with);
    json["quantity_low"] = group.quantity_low;
    json["quantity_high"] = group.quantity_high;
    json["for"] = json_list(group.leaves);
    json["against"] = json_list(group.against);
    json["cautions"] = texts_of(group.cautions);
    json["notes"] = group.notes;
    return json;
}

Json json_of(const FirstThing& first) {
    return {{"what", first.what}, {"lines", first.titles}, {"attributes", first.attributes}};
}

Json json_of(const RoleAnswer& answer) {
    Json json{{"role", answer.role},
              {"title", answer.title},
              {"verdict", verdict_name(answer.verdict)},
              {"unit", answer.unit},
              {"domain", answer.domain}};
    json["groups"] = Json::array();
    for (const auto& group : answer.groups) json["groups"].push_back(json_of(group));
    for (const auto& part : answer.parts) json["groups"].push_back(json_of(part));
    if (!answer.plain())
        for (const auto& part : answer.with_others) json["groups"].push_back(json_of(part));
    json["none_needed_because"] = json_list(answer.none_leaves);
    json["told"] = json_list(answer.told);
    json["withdrawn"] = json_list(answer.withdrawn);
    json["failure"] = answer.failure;
    json["settled_by"] = answer.deciding;
    json["weakest_evidence"] = evidence_name(answer.weakest);
    json["invented"] = answer.invented;
    return json;
}

Json json_of(const Question& question) {
    const auto& attribute = question.column->attribute;
    Json json{{"attribute", attribute.name},
              {"title", attribute.title},
              {"how", attribute.how},
              {"minutes", attribute.minutes},
              {"raised", attribute.raised},
              {"dismantling", attribute.dismantling},
              {"settles_expected", question.settles},
              {"settles_at_most", question.settles_most},
              {"lines", question.lines}};
    json["answers"] = Json::array();
    for (const auto& [value, share] : question.answers)
        json["answers"].push_back({{"value", value->text}, {"share", share}});
    return json;
}

Json json_of(const Edge& edge) {
    return {{"offered", edge.offered},
            {"relation", std::string(relation_name(edge.relation))},
            {"wanted", edge.wanted},
            {"origin", json_of(edge.origin)}};
}

Json json_of(const SwapAnswer& answer) {
    Json json{{"wanted", answer.wanted},
              {"offered", answer.offered},
              {"verdict", swap_name(answer.verdict)},
              {"wanted_group", answer.wanted_group},
              {"offered_group", answer.offered_group}};
    json["path"] = Json::array();
    for (const auto& edge : answer.path) json["path"].push_back(json_of(edge));
    json["only_where"] = answer.conditions;
    json["on_condition"] = answer.requirements;
    json["also_fit"] = answer.also_requires;
    json["differs"] = answer.differences;
    json["reasons"] = answer.reasons;
    json["cautions"] = texts_of(answer.cautions);
    json["leaves"] = json_list(answer.leaves);
    json["withdrawn"] = json_list(answer.withdrawn);
    json["weakest_evidence"] = answer.leaves.empty() ? Json(nullptr) : Json(std::string(evidence_name(answer.weakest)));
    json["invented"] = answer.invented;
    return json;
}

Json json_of(const Member& member) {
    return {{"item", member.item},
            {"title", member.title},
            {"pack_quantity", member.pack_quantity},
            {"origin", json_of(member.origin)}};
}

Json json_of(const Option& option) {
    Json json{{"group", option.group}, {"title", option.title}, {"where", option.where}, {"share", option.share}};
    if (!option.goes_with.empty()) json["goes_with"] = json_of(option.goes_with);
    json["items"] = json_list(option.members);
    json["claimed_only"] = json_list(option.claimed);
    json["packs"] = Json::array();
    for (const auto& one : option.containers)
        json["packs"].push_back({{"item", one.item}, {"pack_quantity", one.quantity}, {"count", one.count}});
    return json;
}

Json json_of(const ListLine& line) {
    Json json{{"role", line.answer.role},
              {"title", line.answer.title},
              {"verdict", verdict_name(line.answer.verdict)},
              {"reach", reach_name(line.reach)},
              {"reuse", line.reuse},
              {"jobs", line.jobs},
              {"unit", line.answer.unit},
              {"quantity_low", line.quantity_low},
              {"quantity_high", line.quantity_high},
              {"amount_recorded", !line.amount_open},
              {"only_where", line.only_where},
              {"none_needed_where", line.none_where},
              {"not_recorded_where", line.blank_where},
              {"companion_of", line.companion_of},
              {"kits", line.kits},
              {"notes", line.notes},
              {"reserve", line.reserve},
              {"held", json_list(line.held)},
              {"doubts", json_list(line.doubts)},
              {"blocks", line.blocks()}};
    json["options"] = json_list(line.options);
    json["stand_ins"] = json_list(line.stand_ins);
    json["answer"] = json_of(line.answer);
    return json;
}

Json json_of(const Stay& stay) {
    const auto count = stay.count > 0 ? Json(stay.count) : Json(nullptr);
    return {{"role", stay.role},  {"title", stay.title},   {"place", stay.place},
            {"see", stay.see},    {"remove", stay.remove}, {"where", stay.where},
            {"count_out", count}, {"count_in", count},     {"origin", json_of(stay.origin)}};
}

Json json_of(const Kit& kit) {
    return {{"item", kit.item},   {"title", kit.title},     {"covers", kit.covers},
            {"lacks", kit.lacks}, {"surplus", kit.surplus}, {"origin", json_of(kit.origin)}};
}

Json json_of(const Caution& caution) { return {{"text", caution.text}, {"origin", json_of(caution.source.row)}}; }

Json json_of(const PartsList& list) {
    Json json{{"jobs", list.jobs},
              {"ready", list.ready()},
              {"weakest_evidence", evidence_name(list.weakest)},
              {"hearsay", list.hearsay},
              {"invented", list.invented}};
    json["to_check"] = list.to_check;
    json["not_recorded"] = list.unrecorded;
    json["sources_disagree"] = list.disagreed;
    json["nothing_fits"] = list.unfit;
    json["not_answered"] = list.unanswered;
    json["held"] = list.held;
    json["lines"] = json_list(list.lines);
    json["stays_behind"] = json_list(list.stays);
    json["kits"] = json_list(list.kits);
    json["cautions"] = json_list(list.cautions);
    json["next"] = question_comes_first(list) ? json_of(*list.next) : Json(nullptr);
    return json;
}

Json json_of(const SourceNote& source) {
    return {{"evidence", evidence_name(source.evidence)}, {"source", source.title}};
}

Json json_of(const AnswerLine& line) {
    Json json{{"label", line.label}};
    if (const auto* text = std::get_if<std::string>(&line.value)) {
        json["value"] = *text;
    } else {
        const auto& measure = std::get<Measure>(line.value);
        json["value"] = measure.value;
        json["unit"] = measure.unit;
    }
    json["source"] = json_of(line.source);
    return json;
}

Json json_of(const Series& series) {
    Json json{{"title", series.title},     {"x_label", series.x_label}, {"x_unit", series.x_unit},
              {"y_label", series.y_label}, {"y_unit", series.y_unit},   {"log_y", series.log_y}};
    json["curves"] = Json::array();
    for (const auto& curve : series.curves) {
        Json points = Json::array();
        for (const auto& [x, y] : curve.points) points.push_back(Json::array({x, y}));
        json["curves"].push_back({{"name", curve.name}, {"points", points}});
    }
    json["marks"] = Json::array();
    for (const auto& [x, label] : series.marks) json["marks"].push_back({{"x", x}, {"label", label}});
    return json;
}

Json json_of(const Grid& grid) {
    return {{"title", grid.title}, {"columns", grid.columns}, {"rows", grid.rows}, {"marked_rows", grid.marked_rows}};
}

Json json_of(const Picture& picture) {
    return {{"title", picture.title}, {"text_equivalent", picture.text_equivalent}};
}

Json json_of(const Answer& answer) {
    Json json{{"verdict", answer.verdict ? Json(verdict_name(*answer.verdict)) : Json(nullptr)},
              {"headline", answer.headline}};
    json["lines"] = json_list(answer.lines);
    json["assumptions"] = answer.assumptions;
    json["cautions"] = answer.cautions;
    json["next"] = answer.next;
    json["series"] = json_list(answer.series);
    json["grids"] = json_list(answer.grids);
    json["pictures"] = json_list(answer.pictures);
    return json;
}

Json json_of(const Situation& situation) {
    Json json{{"name", situation.name()},
              {"line", situation.model().key},
              {"title", situation.model().title},
              {"configurations", situation.model().set.size()},
              {"left", situation.narrowing().left.count()}};
    json["told"] = Json::array();
    for (const auto& told : situation.told())
        json["told"].push_back({{"attribute", told.attribute},
                                {"value", told.text},
                                {"evidence", tell_evidence_words(told.evidence)},
                                {"date", told.date}});
    return json;
}

Json json_of(const Photo& photo) {
    return {{"photo", photo.number}, {"sha256", photo.sha256}, {"type", photo.type}, {"path", photo.path}};
}

}  // namespace casebound
