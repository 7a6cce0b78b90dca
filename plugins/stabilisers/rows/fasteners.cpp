#include "rows/fasteners.h"

#include <algorithm>

#include "core/contract/answer_words.h"
#include "rows/records.h"

namespace casebound::stabilisers {
namespace {

struct Figure {
    std::string text;
    SourceNote source;
};

Figure not_stated(const Row& row) {
    return {"not stated: find the maker's, or measure thread and class for a computed one", row_source(row)};
}

// T = K F d of the row's own thread and class, dry of oil as it comes.
std::optional<Figure> computed_figure(const Row& row, const Facts& facts) {
    const auto thread_mm = row.number("thread_mm"), pitch_mm = row.number("pitch_mm");
    if (!thread_mm || !pitch_mm || !row.stated("property_class")) return std::nullopt;
    const auto proof = proof_of(facts, row.text("property_class"), *thread_mm);
    const auto friction = friction_of(facts, "as_received");
    if (!proof || !friction) return std::nullopt;
    const auto torque = torque_for({*thread_mm, *pitch_mm}, proof->mpa, share_of_proof, friction->nut_factor);
    return Figure{"about " + fixed(torque.torque_nm, 0) + " N·m, computed from thread and class, not the maker's",
                  weaker(weaker(row_source(row), computed("T = K F d")), weaker(proof->source, friction->source))};
}

Figure figure_of(const Row& row, const Facts& facts) {
    const auto torque_nm = row.number("torque_nm"), angle_deg = row.number("angle_deg");
    if (torque_nm)
        return {quantity_text(*torque_nm, "N·m") + (angle_deg ? " + " + quantity_text(*angle_deg, "°") : ""),
                row_source(row)};
    return computed_figure(row, facts).value_or(not_stated(row));
}

// "link to bar": two fasteners of one kind may sit at both ends.
std::string joint_said(const Row& row) {
    auto text = cell(row, "place");
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

}  // namespace

std::vector<HeldRow> fasteners_at(const Services& services, Axle axle, bool clamp) {
    auto rows = rows_here(services, "stabilisers_joints");
    std::erase_if(rows, [&](const HeldRow& row) {
        return value_of<Axle>(row->text("axle"), axle_words) != axle || (row->text("place") == "clamp") != clamp;
    });
    return rows;
}

std::optional<Proof> proof_of(const Facts& facts, std::string_view property_class, double thread_mm) {
    std::optional<Proof> found;
    for (const auto& row : facts.rows("stabilisers_classes", "property_class", property_class)) {
        if (thread_mm <= row.need_number("over_mm") || thread_mm > row.need_number("up_to_mm")) continue;
        const double mpa = row.need_number("proof_mpa");
        if (found && found->mpa != mpa) return std::nullopt;
        if (!found) found = Proof{mpa, row_source(row)};
    }
    return found;
}

std::optional<Friction> friction_of(const Facts& facts, std::string_view state) {
    const auto& rows = facts.rows("stabilisers_friction", "state", state);
    if (rows.empty()) return std::nullopt;
    return Friction{rows.front().need_number("nut_factor"), row_source(rows.front())};
}

bool is_computed(const Row& row, const Facts& facts) {
    return !row.number("torque_nm") && computed_figure(row, facts).has_value();
}

Fastener fastener_of(const HeldRow& row, const Facts& facts) {
    auto figure = figure_of(*row, facts);
    if (row->text("reuse") == "never") figure.text += "; new each time";
    if (row->yes("at_ride_height")) figure.text += "; last turn with the weight on the wheels";
    return {cell(*row, "count") + " x " + cell(*row, "fastener") + ", " + joint_said(*row), figure.text + row.where(),
            std::move(figure.source)};
}

Tightening tightening(std::string_view role, const Services& services) {
    const bool link = place_of_link(role).axle != Axle::unknown, bush = role.substr(0, 11) == "bar-bushes-";
    if (!link && !bush) return {true, {}};  // nuts and bolts are listed with what they hold
    Tightening tightening;
    for (const auto& row : fasteners_at(services, axle_of_role(role), bush))
        tightening.fasteners.push_back(fastener_of(row, services.facts));
    return tightening;
}

}  // namespace casebound::stabilisers
