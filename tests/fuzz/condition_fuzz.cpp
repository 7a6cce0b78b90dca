// A condition: what is taken has one normal form, which reads back the same; the values that it spells out meet it.
#include "core/reason/condition.h"

#include "core/ground/error.h"
#include "tests/fuzz/target.h"

using namespace casebound;

namespace {

std::vector<Attribute> attributes() {
    Attribute engine, depth, year, seal;
    engine.name = "engine", depth.name = "pan_depth", year.name = "year", seal.name = "seal";
    depth.kind = ValueKind::number, depth.unit = "mm", depth.tolerance = 1.5;
    year.kind = ValueKind::year;
    seal.choices = {"flat", "lip"};
    return {engine, depth, year, seal};
}

void ask_of(const Condition& condition, const Attribute& attribute) {
    for (const auto& term : condition.terms) {
        if (term.attribute != attribute.name) continue;
        try {
            const Matcher matcher(attribute, term, attribute.tolerance);
            for (const auto& span : term.spans)
                if (span.single() && !term.negated)
                    fuzz::promised(matcher.matches(typed_value(attribute, *span.low)), "a value meets itself");
        } catch (const ConditionFault& fault) { fuzz::promised(*fault.what() != '\0', "a fault says what is wrong"); }
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto text = fuzz::text_of(data, size);
    try {
        const auto condition = parse_condition(text);
        const auto normal = to_text(condition);
        fuzz::promised(to_text(parse_condition(normal)) == normal, "the normal form reads back the same");
        for (const auto& attribute : attributes()) ask_of(condition, attribute);
        spelled_out(condition, attributes(), 500);
    } catch (const ConditionFault& fault) { fuzz::promised(fault.at <= text.size(), "a fault lies in the text"); }
    return 0;
}
