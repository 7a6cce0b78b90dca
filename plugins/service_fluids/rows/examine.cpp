#include "rows/examine.h"

#include "core/contract/answer_words.h"
#include "core/contract/examiner.h"
#include "rows/records.h"
#include "science/washer.h"

namespace casebound::service_fluids {
namespace {

struct FluidExaminer : Examiner {
    // From `low` to `high` it goes; outside it does not.
    void only_within(const char* attribute, double low, double high, const std::string& reason, const Row& row) {
        if (!can_tell(attribute)) return;
        object(std::string(attribute) + "<" + fixed(low, 2), Verdict::does_not_fit, reason + ", the vehicle's is less",
               row_source(row));
        object(std::string(attribute) + ">" + fixed(high, 2), Verdict::does_not_fit, reason + ", the vehicle's is more",
               row_source(row));
    }
    void by_size(const Row& row, const char* column, const char* attribute, double apart, const std::string& what) {
        if (const auto recorded = row.number(column))
            only_within(attribute, *recorded - apart, *recorded + apart,
                        what + " of " + candidate.group + " is " + number_text(*recorded) + " mm", row);
    }

    void note(const Row& row) {
        if (row.stated("note")) warn(cell(row, "note"), row_source(row));
    }

    void oil(const Row& row) {
        if (can_tell("oil_viscosity_printed"))
            object("not oil_viscosity_printed=" + cell(row, "viscosity"), Verdict::check_first,
                   candidate.group + " is " + cell(row, "viscosity") + ", the maker prints another viscosity",
                   row_source(row));
        note(row);
    }

    // Each family that may be in the circuit and is another.
    void by_family(const Row& row) {
        for (const auto& present : family_names()) {
            if (present == row.text("family")) continue;
            const auto mixing = mixing_of(services.facts, row.text("family"), present);
            if (mixing.may) continue;
            object("coolant_family=" + present, Verdict::check_first,
                   candidate.group + " is " + family_said(row.text("family")) + ", " + family_said(present) +
                       " is in the circuit (" + mixing.words + "): only after all of that is flushed out",
                   weaker(row_source(row), mixing.source));
        }
    }

    // What does not come out, and how the air gets out.
    void circuit() {
        for (const auto& held : rows_here(services, "service_fluids_coolant_volumes")) {
            const auto total_l = held->number("total_l"), drained_l = held->number("drained_l");
            if (total_l && drained_l && *total_l > *drained_l)
                warn(quantity_text(*total_l - *drained_l, "L") + " of the old stay in the block" + held.where(),
                     row_source(*held));
            if (held->stated("bleeding"))
                warn("to bleed: " + cell(*held, "bleeding") + held.where(), row_source(*held));
        }
    }

    void coolant(const Row& row) {
        if (can_tell("coolant_family")) by_family(row);
        else {
            result.questions.emplace_back("coolant_family");
            warn("which family is in the circuit is not known: flush it out, or find out first", practice());
        }
        note(row);
        circuit();
        const double glycol_pct = row.need_number("glycol_pct");
        warn(glycol_pct < 100 ? "ready to use at " + number_text(glycol_pct) + " %: no water to it"
                              : std::string("concentrate: mix it with distilled water before it goes in"),
             row_source(row));
        if (row.stated("d3306_type")) warn("type " + cell(row, "d3306_type") + " of ASTM D3306", row_source(row));
    }

    void filter(const Row& row) {
        by_size(row, "thread_mm", "oil_filter_thread", 0.3, "the thread");
        by_size(row, "seal_outside_mm", "oil_filter_seal", 1, "the seal ring");
        if (row.text("form") == "spin_on")
            warn("look on the block for the old seal ring before the new filter goes on: two leak at once", practice());
    }

    void washer(const Row& row) {
        const double inside_mm = row.need_number("inside_mm");
        if (candidate.role == "oil-plug-washer")
            only_within("oil_plug_thread", inside_mm - washer_play_mm, inside_mm + 0.05,
                        "the hole of " + candidate.group + " is " + number_text(inside_mm) + " mm", row);
        if (row.text("form") == "crush") result.never_again = row_source(row);
    }
};

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    const bool brake = is_brake_fluid(services.facts, candidate.group);
    if (brake != (candidate.role == "brake-fluid")) {
        Examination stopped;
        stopped.objections = {{"", Verdict::does_not_fit,
                               brake ? candidate.group + " is a brake fluid"
                                     : candidate.group + " is no brake fluid: brakes take the exact grade",
                               law("49 CFR 571.116, S4")}};
        return stopped;
    }
    if (services.vehicle == nullptr) return {};
    FluidExaminer examiner{{candidate, services}};
    if (const auto* row = row_of_group(services.facts, oils, candidate.group)) examiner.oil(*row);
    if (const auto* row = row_of_group(services.facts, coolants, candidate.group)) examiner.coolant(*row);
    if (const auto* row = row_of_group(services.facts, oil_filters, candidate.group)) examiner.filter(*row);
    if (const auto* row = row_of_group(services.facts, washers, candidate.group)) examiner.washer(*row);
    return std::move(examiner.result);
}

}  // namespace casebound::service_fluids
