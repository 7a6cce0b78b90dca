#include "science/link.h"

#include <utility>

#include "core/contract/valid_range.h"

namespace casebound::stabilisers {
namespace {

struct LinkComparison : Comparison {
    void by_axle(Axle wanted, Axle offered) {
        if (wanted == Axle::unknown || offered == Axle::unknown) return not_known("axle");
        if (wanted != offered) add("axle", "a link of the other axle", Weight::no);
    }

    void by_side(Side wanted, Side offered) {
        if (wanted == Side::unknown || offered == Side::unknown) return not_known("side");
        const bool either = wanted == Side::either || offered == Side::either;
        if (!either && wanted != offered) add("side", "left is not right, even where they look alike", Weight::no);
    }

    void by_ends(Ends wanted, Ends offered) {
        if (wanted == Ends::unknown || offered == Ends::unknown) return not_known("ends");
        if (wanted != offered)
            add("ends", ends_said(offered) + " offered, " + ends_said(wanted) + " wanted", Weight::no);
    }

    void by_measure(const char* what, double offered, double wanted, const char* unit, const char* because,
                    Weight weight) {
        add(what, with_unit(offered, unit), with_unit(wanted, unit), because, weight);
    }
};

}  // namespace

std::string ends_said(Ends ends) {
    switch (ends) {
        case Ends::two_studs: return "two studs";
        case Ends::stud_and_eye: return "a stud and an eye";
        case Ends::two_eyes: return "two eyes";
        case Ends::long_bolt: return "a long bolt with rubber washers";
        case Ends::unknown: break;
    }
    return "ends not known";
}

std::vector<Difference> differences(const Link& wanted, const Link& offered, Apart apart) {
    LinkComparison found;
    found.by_axle(wanted.place.axle, offered.place.axle);
    found.by_side(wanted.place.side, offered.place.side);
    found.by_ends(wanted.ends, offered.ends);
    if (found.further_apart("thread", wanted.thread_mm, offered.thread_mm, apart.thread_mm))
        found.by_measure("thread", *offered.thread_mm, *wanted.thread_mm, "mm",
                         "it does not go in, or works loose in the hole", Weight::no);
    if (found.further_apart("pitch", wanted.pitch_mm, offered.pitch_mm, apart.pitch_mm))
        found.by_measure("pitch", *offered.pitch_mm, *wanted.pitch_mm, "mm",
                         "only with nuts of its own pitch, never the old ones", Weight::needs_something);
    if (const auto off = found.further_apart("length", wanted.length_mm, offered.length_mm, apart.length_mm)) {
        const bool other = *off > apart.other_length_mm;
        found.by_measure("length", *offered.length_mm, *wanted.length_mm, "mm",
                         other ? "it holds the bar askew" : "only both sides alike, and look that nothing touches",
                         other ? Weight::no : Weight::needs_something);
    }
    const bool has_angle = wanted.ends == Ends::two_studs && offered.ends == Ends::two_studs;
    if (has_angle && found.further_apart("angle", wanted.angle_deg, offered.angle_deg, apart.angle_deg))
        found.by_measure("angle", *offered.angle_deg, *wanted.angle_deg, "deg",
                         "turn the studs by hand: do both lie flat?", Weight::needs_something);
    return std::move(found.all);
}

}  // namespace casebound::stabilisers
