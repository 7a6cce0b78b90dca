// What is read out of a cell or a typed word: quantities, numbers, dates, numbers of vehicles and parts, text for a message.
#include <cmath>

#include "core/ground/dates.h"
#include "core/ground/units.h"
#include "core/ground/utf8.h"
#include "core/ground/vin.h"
#include "core/ground/written_number.h"
#include "core/verdict/part_number.h"
#include "tests/fuzz/target.h"

using namespace casebound;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string text(fuzz::text_of(data, size));
    for (const char* unit : {"mm", "L", "N m", "degC", "mm2/s", "ohm", "min", "km", "kg", "V", "A", "Hz", "%", ""}) {
        try {
            const double value = quantity_in(text, unit);
            fuzz::promised(value == value, "a quantity is a number");
            const auto again = quantity_in(plain_number(value, 9), unit);
            fuzz::promised(std::abs(again - value) <= 1e-6 * std::max(1.0, std::abs(value)),
                           "a quantity that is written is read as the same");
        } catch (const UnitFault&) {}
    }
    if (const auto number = number_in_front(text)) {
        std::string plain(text);
        replace_all(plain, "\u2212", "-");  // a minus is read as one wherever it stands
        fuzz::promised(plain.ends_with(number->rest), "the rest is the text's end");
    }
    if (is_date(text)) fuzz::promised(text.size() == 10, "a date has ten characters");
    const auto vin = read_vin(text);
    fuzz::promised(vin.vin == normal_vin(vin.vin), "a normal number stays as it is");
    if (vin.well_formed) fuzz::promised(vin_check_digit(vin.vin).has_value(), "a number well formed has a check digit");
    const auto compared = compared_number(text);
    fuzz::promised(compared_number(compared) == compared, "a compared number stays as it is");
    const auto said = shown(text);
    fuzz::promised(bad_utf8(said) == std::string::npos, "what is shown is text");
    for (std::size_t at = 0; at < said.size();) {
        const auto bytes = character_bytes(said, at);
        fuzz::promised(bytes > 0 && !steers(std::string_view(said).substr(at, bytes)),
                       "nothing shown steers a terminal");
        at += bytes;
    }
    return 0;
}
