#include "science/seal_count.h"

namespace casebound::filters_seals {
namespace {

constexpr Range kCount{0.0, 10.0};
constexpr Range kBores{1.0, 10.0};
constexpr Source kManual{Evidence::maker, "a maker's workshop manual: seal from the filter or from the seal bore"};
constexpr Source kBulletin{Evidence::common_practice,
                           "industry technical service bulletin 97-7 on filter O-rings and lip seals"};
constexpr Source kPractice{Evidence::common_practice, "common practice, no source"};

void require_count(const char* what, std::optional<int> n) {
    if (n) in_range(what, static_cast<double>(*n), kCount);
}

void require_physical(const SealCount& c) {
    in_range("seal bores", static_cast<double>(c.bores), kBores);
    require_count("seals on the old filter", c.on_old_filter);
    require_count("seals found in the bore", c.found_in_bore);
    require_count("seals taken from the bore", c.taken_from_bore);
    require_count("new seals put in", c.put_in);
}

std::vector<std::string> uncounted(const SealCount& c) {
    std::vector<std::string> out;
    if (!c.on_old_filter) out.emplace_back("look at the neck of the old filter");
    if (!c.found_in_bore) out.emplace_back("look up the bore with a torch and a mirror");
    if (!c.taken_from_bore) out.emplace_back("count what was picked out of the bore");
    if (!c.put_in) out.emplace_back("count the new ones fitted");
    return out;
}

// What the bore alone says, before anything else is counted.
CountState state_of_bore(const SealCount& c) {
    if (!c.found_in_bore || !c.taken_from_bore) return CountState::not_counted;
    if (*c.taken_from_bore > *c.found_in_bore) return CountState::recount;
    if (*c.taken_from_bore < *c.found_in_bore) return CountState::old_one_left_in;
    return CountState::ready_for_new;
}

bool none_anywhere(const SealCount& c) { return c.on_old_filter == 0 && c.found_in_bore == 0; }

CountState state_before_fitting(const SealCount& c) {
    if (none_anywhere(c) && c.taken_from_bore.value_or(0) == 0) return CountState::none_found;
    const CountState bore = state_of_bore(c);
    if (bore != CountState::ready_for_new) return bore;
    if (!c.on_old_filter) return CountState::not_counted;
    if (*c.on_old_filter + *c.taken_from_bore < c.bores) return CountState::none_found;
    return CountState::ready_for_new;
}

CountState state_of(const SealCount& c) {
    if (c.put_in && *c.put_in > c.bores) return CountState::too_many_new;
    const CountState before = state_before_fitting(c);
    if (before != CountState::ready_for_new || !c.put_in || *c.put_in == 0) return before;
    return *c.put_in < c.bores ? CountState::new_one_missing : CountState::balanced;
}

Judgement judge(CountState state) {
    switch (state) {
        case CountState::balanced: return Judgement::fits;
        case CountState::old_one_left_in:
        case CountState::new_one_missing:
        case CountState::too_many_new: return Judgement::does_not_fit;
        default: return Judgement::check_first;
    }
}

std::string say(CountState state, bool stacked) {
    const std::string two = stacked ? "; two were stacked, all are out" : "";
    switch (state) {
        case CountState::not_counted:
            if (stacked)
                return "more old seals than bores: they were stacked, every one comes out before a new one goes in";
            return "not counted yet: count before anything is pressed in";
        case CountState::old_one_left_in: return "stop: an old seal is still in the bore, never press a new one on it";
        case CountState::recount: return "more came out than were seen: look up the bore again and count again";
        case CountState::none_found:
            return "fewer old seals than bores: look again, it may sit flush and look like part of the case";
        case CountState::ready_for_new: return "all old seals out: fit one new one a bore" + two;
        case CountState::new_one_missing: return "a new seal is missing: the pump would draw air";
        case CountState::too_many_new: return "stop: more new seals than bores";
        case CountState::balanced: return "one in for each bore, every old one out" + two;
    }
    return "not counted yet";
}

}  // namespace

std::string_view text(CountState state) {
    switch (state) {
        case CountState::not_counted: return "not counted";
        case CountState::old_one_left_in: return "old one left in";
        case CountState::recount: return "count again";
        case CountState::none_found: return "none found";
        case CountState::ready_for_new: return "ready for the new one";
        case CountState::new_one_missing: return "new one missing";
        case CountState::too_many_new: return "too many new ones";
        case CountState::balanced: return "balanced";
    }
    return "not counted";
}

SealCountAnswer examine_count(const SealCount& count) {
    require_physical(count);
    const CountState state = state_of(count);
    SealCountAnswer out{state, {}, {}, false, judge(state), {}, kManual, uncounted(count)};
    if (count.on_old_filter && count.taken_from_bore) out.out = *count.on_old_filter + *count.taken_from_bore;
    if (count.found_in_bore && count.taken_from_bore) out.left_in = *count.found_in_bore - *count.taken_from_bore;
    if (count.on_old_filter && count.found_in_bore)
        out.stacked = *count.on_old_filter + *count.found_in_bore > count.bores;
    out.say =
        state == CountState::none_found && none_anywhere(count)
            ? "look again: none found on the neck nor in the bore; it may sit flush and look like part of the case"
            : say(state, out.stacked);
    return out;
}

std::string_view text(NeckSealForm form) {
    switch (form) {
        case NeckSealForm::oring_on_neck: return "O-ring on the neck";
        case NeckSealForm::ribbed_band_on_neck: return "ribbed band on the neck";
        case NeckSealForm::hat_in_bore: return "hat seal in the bore";
        case NeckSealForm::moulded_to_filter: return "seal moulded to the filter";
    }
    return "neck seal";
}

FitMethod fit_method(NeckSealForm form) {
    switch (form) {
        case NeckSealForm::oring_on_neck:
            return {"on the filter neck, oiled, then up into the bore with a twist", true, true, kBulletin};
        case NeckSealForm::ribbed_band_on_neck:
            return {"on the filter neck up to its stop, then the filter into the bore", true, true, kBulletin};
        case NeckSealForm::hat_in_bore:
            return {"square into the bore up to its lip, oiled, then the filter into the seal", false, true, kBulletin};
        case NeckSealForm::moulded_to_filter: break;
    }
    return {"part of the filter", true, false, kPractice};
}

}  // namespace casebound::filters_seals
