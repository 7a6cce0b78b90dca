#include "rows/telling.h"

#include <algorithm>
#include <cctype>

#include "core/contract/answer_lines.h"
#include "rows/family.h"

namespace casebound::solenoids {
namespace {

std::string cased(std::string text, int (*change)(int)) {
    for (char& c : text) c = static_cast<char>(change(static_cast<unsigned char>(c)));
    return text;
}
std::string upper(std::string text) { return cased(std::move(text), std::toupper); }
std::string lower(std::string text) { return cased(std::move(text), std::tolower); }

bool contains(const std::vector<std::string>& all, std::string_view one) {
    return std::find(all.begin(), all.end(), one) != all.end();
}

// ---------------------------------------------------------------- codes

bool on_record(Code code, const Facts& facts) {
    return meaning(code) || !facts.rows("solenoids_codes", "code", code_text(code)).empty();
}

Telling codes(std::string_view text, const Facts& facts) {
    Telling telling;
    std::vector<std::string> kept;
    for (const auto& word : split_words(text, "+, ;/")) {
        const auto code = read_code(word);
        if (!code) {
            telling.faults.push_back(word +
                                     " is not a code: write a letter P, C, B or U, a digit 0 to 3 and three digits or "
                                     "A to F, as in P0753 (SAE J2012); several as P0753+P0758");
            continue;
        }
        const auto written = code_text(*code);
        if (contains(kept, written)) continue;
        kept.push_back(written);
        if (!on_record(*code, facts))
            telling.unusual.push_back(written + " is not in the catalog" +
                                      (is_makers_own(*code)
                                           ? ": it is the maker's own, and only the maker's text says what it means"
                                           : ": read it again; if it stands, look it up in the maker's text"));
    }
    if (kept.empty() && telling.faults.empty())
        telling.faults.emplace_back("no code stands there: write P0753, several as P0753+P0758, or none");
    telling.text = listed(kept, "+");
    return telling;
}

// ---------------------------------------------------------------- gears

struct Gears {
    std::vector<std::string> names;
    std::size_t most{};  // gears that can be commanded in one drive
    std::string of;      // the families, or why there is none
};

// Nothing unless every family that is still possible is recorded with its gears.
std::optional<Gears> gears_on_record(const Services& services) {
    Gears gears;
    std::vector<std::string> families;
    if (services.vehicle)
        for (const auto& value : services.vehicle->possible("gearbox")) {
            const auto family = read_family(services.facts, value.text);
            if (!family || family->table.gears.empty()) return std::nullopt;
            for (const auto& gear : family->table.gears)
                if (!contains(gears.names, gear.name)) gears.names.push_back(gear.name);
            gears.most = std::max(gears.most, family->table.gears.size());
            families.push_back(value.text);
        }
    if (families.empty()) return std::nullopt;
    gears.of = listed(families, " and ");
    return gears;
}

Gears gears_of(const Services& services) {
    if (auto known = gears_on_record(services)) return *known;
    return {{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "R", "N"}, 12, "any gearbox"};
}

std::string gear_named(const std::string& word, const Gears& gears) {
    for (const auto& name : gears.names)
        if (upper(name) == upper(word)) return name;
    return "";
}

// Written one after the other, joined by -. `besides`: what may stand in place of a gear.
Telling gears(std::string_view text, const Services& services, const std::vector<std::string>& besides, bool once) {
    const auto known = gears_of(services);
    Telling telling;
    std::vector<std::string> kept;
    for (const auto& word : split_words(text, "-, ;+")) {
        auto gear = gear_named(word, known);
        if (gear.empty() && contains(besides, lower(word))) gear = lower(word);
        if (gear.empty())
            telling.faults.push_back(word + " is no gear of " + known.of + ": write " + listed(known.names) +
                                     (besides.empty() ? "" : "; or slip, bind or ?"));
        else if (once && contains(kept, gear))
            telling.faults.push_back("gear " + gear + " is named twice: name each gear once");
        kept.push_back(gear);
    }
    telling.faults.erase(std::unique(telling.faults.begin(), telling.faults.end()), telling.faults.end());
    if (kept.empty()) telling.faults.emplace_back("no gear stands there: write them one after the other, as 2-3");
    else if (telling.faults.empty() && kept.size() > known.most)
        telling.faults.push_back(std::to_string(kept.size()) + " gears: " + known.of + " can be commanded into " +
                                 std::to_string(known.most) + " at most, each is noted once");
    telling.text = listed(kept, "-");
    return telling;
}

// ---------------------------------------------------------------- lever and coils

bool is_lever(const std::string& word, const Services& services) {
    if (contains({"P", "R", "N", "D", "OD", "S", "L", "M"}, word)) return true;
    const auto digits = word.rfind('D', 0) == 0 || word.rfind('M', 0) == 0 ? word.substr(1) : word;
    if (contains({"1", "2", "3", "4", "5", "6", "7", "8", "9", "10"}, digits)) return true;
    const auto& rows = services.facts.rows("solenoids_levers");
    return std::any_of(rows.begin(), rows.end(),
                       [&](const Row& row) { return upper(std::string(row.text("lever"))) == word; });
}

Telling lever(std::string_view text, const Services& services) {
    const auto word = upper(std::string(text));
    if (is_lever(word, services)) return {word, {}, {}};
    return {
        "", {std::string(text) + " is no lever position: write P, R, N, D, OD, S, L, M or a gear such as 2 or D3"}, {}};
}

// A code that cannot be read is none.
Telling block_code(std::string_view text) {
    return {contains({"unreadable", "illegible", "worn", "unknown", "?"}, lower(std::string(text))) ? "unreadable" : "",
            {},
            {}};
}

// The families that are still possible, when each is recorded and none has a solenoid with this coil; else "".
std::string without_coil(std::string_view attribute, const Services& services) {
    constexpr std::string_view at_part = "_at_part";
    if (attribute.ends_with(at_part)) attribute.remove_suffix(at_part.size());
    std::vector<std::string> families;
    if (services.vehicle)
        for (const auto& value : services.vehicle->possible("gearbox")) {
            const auto family = read_what_is_ordered(services.facts, value.text);
            if (!family || family->elements.empty()) return "";
            for (const auto& element : family->elements)
                if (element.coil_attribute == attribute) return "";
            families.push_back(value.text);
        }
    return listed(families, " and ");
}

// What meters show for an open circuit. A coil that is not there was not measured.
Telling coil(std::string_view attribute, std::string_view text, const Services& services) {
    if (const auto families = without_coil(attribute, services); !families.empty())
        return {"", {families + " has no such solenoid: look again which connector pin it was measured at"}, {}};
    const auto word = lower(std::string(text));
    return {contains({"open", "ol", "o.l", "inf", "infinite"}, word) ? "open" : "", {}, {}};
}

}  // namespace

Telling telling(std::string_view attribute, std::string_view text, const Services& services) {
    if (attribute == "codes") return codes(text, services.facts);
    if (attribute == "gears_obtained")
        return gears(text, services, {"slip", "slips", "bind", "binds", "x", "?"}, false);
    if (attribute == "slips_in") return gears(text, services, {}, true);
    if (attribute == "block_code") return block_code(text);
    if (attribute == "lever_position") return lever(text, services);
    return attribute.rfind("coil_", 0) == 0 && attribute != "coil_temp" ? coil(attribute, text, services) : Telling{};
}

}  // namespace casebound::solenoids
