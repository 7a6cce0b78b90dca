#include "rows/examine.h"

#include <algorithm>

#include "core/contract/answer_words.h"
#include "core/contract/examiner.h"
#include "rows/fasteners.h"
#include "rows/findings.h"
#include "rows/records.h"
#include "rows/vocabulary.h"
#include "science/bar.h"

namespace casebound::stabilisers {
namespace {

struct LinkExaminer : Examiner {
    Axle axle;
    Side side;

    // Outside `apart` of what is recorded the verdict is at most that.
    void beyond(const char* attribute, double recorded, double apart, Verdict at_most, const std::string& reason,
                const Row& row) {
        const auto name = at_axle(attribute, axle);
        object(name + "<" + fixed(recorded - apart, 2), at_most, reason + ", the vehicle's is less", row);
        object(name + ">" + fixed(recorded + apart, 2), at_most, reason + ", the vehicle's is more", row);
    }
    void by_number(const Row& row, const char* column, const char* attribute, double apart, Verdict at_most,
                   const std::string& what) {
        const auto recorded = row.number(column);
        if (recorded && can_tell(at_axle(attribute, axle)))
            beyond(attribute, *recorded, apart, at_most,
                   what + " of " + candidate.group + " is " + number_text(*recorded), row);
    }

    void by_place(const Row& row, const Link& link) {
        if (link.place.axle != axle) object("", Verdict::does_not_fit, candidate.group + " is for the other axle", row);
        if (side != Side::unknown && link.place.side != Side::either && link.place.side != side)
            object("", Verdict::does_not_fit,
                   candidate.group + " is for the other side: left is not right, even where they look alike", row);
    }

    void by_ends(const Row& row, const Link& link) {
        const auto name = at_axle("link_ends", axle);
        if (!can_tell(name)) return;
        object("not " + name + "=" + std::string(row.text("ends")), Verdict::does_not_fit,
               candidate.group + " has " + ends_said(link.ends) + ", the vehicle's link has not", row);
    }

    void by_link(const Row& row) {
        const auto link = link_of_row(row);
        const Apart apart;
        by_place(row, link);
        by_ends(row, link);
        by_number(row, "thread_mm", "link_thread", apart.thread_mm, Verdict::does_not_fit, "the thread, mm,");
        by_number(row, "pitch_mm", "link_pitch", apart.pitch_mm, Verdict::check_first,
                  "only with its own nuts: the pitch, mm,");
        by_number(row, "length_mm", "link_length", apart.length_mm, Verdict::check_first, "the length, mm,");
        by_number(row, "length_mm", "link_length", apart.other_length_mm, Verdict::does_not_fit, "the length, mm,");
        if (link.ends == Ends::two_studs)
            by_number(row, "angle_deg", "link_angle", apart.angle_deg, Verdict::check_first,
                      "the angle between the studs, degrees,");
    }

    void by_bush(const Row& row) {
        if (value_of<Axle>(row.text("axle"), axle_words) != axle)
            object("", Verdict::does_not_fit, candidate.group + " is for the other axle", row);
        by_number(row, "bar_mm", "bar_diameter", bar_within_mm, Verdict::does_not_fit, "the bar, mm,");
        if (row.text("form") == "bonded")
            warn(candidate.group + " is bonded to the bar: clean bare metal, and no grease", row_source(row));
    }

    void add_fastener(const HeldRow& row, bool in_box) {
        const bool clamp = row->text("place") == "clamp";
        if (row->text("reuse") == "never") {
            const auto role = (clamp ? "bar-clamp-bolts-" : "link-nuts-") + axle_said(axle);
            const auto text = cell(*row, "fastener") + ": new each time";
            if (in_box) warn(text + ", in the box of the link", row_source(*row));
            else if (row.holds == Holds::yes) result.companions.push_back({role, text, row_source(*row)});
            else warn(text + "," + row.where(), row_source(*row));
        }
        if (row->yes("at_ride_height"))
            warn("last turn of " + cell(*row, "fastener") + " only with the weight on the wheels, at ride height",
                 row_source(*row));
    }

    void by_pair() {
        for (const auto& row : rows_here(services, "stabilisers_both_sides")) {
            if (value_of<Axle>(row->text("axle"), axle_words) != axle || row->text("rule") == "no") continue;
            const bool required = row->text("rule") == "required";
            const auto text = std::string("the source ") + (required ? "requires" : "recommends") +
                              " both links of the axle";
            warn(text + row.where(), row_source(*row));
            if (required && row.holds == Holds::yes)
                result.companions.push_back({role_of_link(axle, other_side(side)), text, row_source(*row)});
        }
    }

    // Play was felt, and not here.
    void by_finding() {
        const auto told = clunk_told(services.vehicle);
        const auto here = [&](const Place& place) { return place.axle == axle && place.side == side; };
        if (!told.play.empty() && std::none_of(told.play.begin(), told.play.end(), here))
            warn("play is told of another link, not of this one", told.source);
    }

    void link() {
        const auto* row = row_of_group(services.facts, "stabilisers_links", candidate.group);
        if (row) by_link(*row);
        else
            warn("ends, thread and length of " + candidate.group +
                     " are not recorded: hold it beside the old one before that comes off",
                 practice());
        for (const auto& fastener : fasteners_at(services, axle, false))
            add_fastener(fastener, row && row->yes("nuts_in_box"));
        by_pair();
        by_finding();
    }

    void bush() {
        if (const auto* row = row_of_group(services.facts, "stabilisers_bushes", candidate.group)) by_bush(*row);
        for (const auto& fastener : fasteners_at(services, axle, true)) add_fastener(fastener, false);
    }

    // A nut or bolt that a source says is never used again.
    void fastener_itself(bool clamp) {
        for (const auto& row : fasteners_at(services, axle, clamp))
            if (row.holds == Holds::yes && row->text("reuse") == "never") result.never_again = row_source(*row);
    }
};

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    const auto axle = axle_of_role(candidate.role);
    if (axle == Axle::unknown || services.vehicle == nullptr) return {};
    const auto place = place_of_link(candidate.role);
    LinkExaminer examiner{{candidate, services}, axle, place.side};
    const auto starts = [&](std::string_view with) { return candidate.role.compare(0, with.size(), with) == 0; };
    if (starts("bar-bushes-")) examiner.bush();
    else if (starts("link-nuts-") || starts("bar-clamp-bolts-")) examiner.fastener_itself(starts("bar-clamp-"));
    else if (place.axle != Axle::unknown) examiner.link();
    return std::move(examiner.result);
}

}  // namespace casebound::stabilisers
