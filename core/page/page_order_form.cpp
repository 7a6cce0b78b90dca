#include "core/page/page_order_form.h"

#include "core/page/page_vehicle.h"
#include "core/verdict/parts_list.h"

namespace casebound {

namespace {

// The lines of the list by what must be ordered for them, or is only looked at.
Field line_field(const PartsList& list, std::string name, std::string label, bool must_order) {
    Field field{std::move(name), std::move(label), Field::Kind::choice, "", "", "", {{"", "none"}}};
    for (const auto& line : list.lines)
        if (line.must_order() == must_order && line.answer.verdict != Verdict::none_needed)
            field.options.emplace_back(line.answer.role, line.answer.title);
    return field;
}

}  // namespace

Form order_wishes(const Visit& visit, const Situation& situation) {
    const auto list = make_parts_list(situation.places(), visit.all_asked("job"));
    Form form{"order",
              "With other wishes",
              "Show the order",
              {{"within", "Everything here within", Field::Kind::number, "days"},
               {"sellers", "At most so many sellers", Field::Kind::number},
               line_field(list, "with", "Order this too, which is only looked at first", false),
               line_field(list, "without", "Leave this out", true),
               {"reserve", "Fluid beyond the need", Field::Kind::number, "L", "3 % and 0.3 L when left empty."},
               {"second-order", "What a second order costs you", Field::Kind::number, visit.currency()},
               {"no-core", "There is no old part to hand in", Field::Kind::check}},
              {},
              {},
              vehicle_address(situation.name(), "/order")};
    for (const auto& job : visit.all_asked("job")) form.hidden.emplace_back("job", job);
    return form;
}

}  // namespace casebound
