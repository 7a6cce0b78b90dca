// The whole contract between casebound and a domain plugin; a plugin sees nothing else of core.
//
// A plugin is a shared library that exports one plain-data symbol, `casebound_manifest`. Its stamp is
// read from the file before any code of the plugin runs; a plugin built for another contract, by another compiler or
// with another standard library, is refused. Objects cross this edge by value or const reference;
// whoever made an object destroys it. Plugins never open files or databases, print, or start threads.
// A domain may lower a verdict or add a caution, a companion, a question or a hold. It can never raise one.
// An exception that leaves a domain harms nobody: core says which domain failed in which hook, and goes on.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/contract/answer.h"
#include "core/contract/valid_range.h"

namespace casebound {

// ---------------------------------------------------------------- check, examine, may stand in

// A fault of a row of a pack. The text says what is wrong and what to do.
struct RowFault {
    Origin origin;
    std::string column, what;
};

struct Candidate {
    std::string role, group, item;  // item is empty when the group as a whole is examined
};

// "On configurations where `condition` holds (empty: all), the verdict is at most `at_most`."
// Core meets the condition with the possibilities left, so a domain never counts configurations.
// `condition` may name attributes of the vehicle's line, and any that something was told of.
struct Objection {
    std::string condition;
    Verdict at_most = Verdict::does_not_fit;
    std::string reason;
    SourceNote source;
};

struct Caution {
    std::string text;
    SourceNote source{};
};

inline std::vector<std::string> texts_of(const std::vector<Caution>& cautions) {
    std::vector<std::string> texts;
    for (const auto& caution : cautions) texts.push_back(caution.text);
    return texts;
}

struct Companion {
    std::string role, reason;  // a further role that this candidate needs
    SourceNote source;
};

struct Examination {
    std::vector<Objection> objections;
    std::vector<Caution> cautions;
    std::vector<Companion> companions;
    std::vector<std::string> questions;       // attributes worth finding out before ordering this candidate
    std::optional<SourceNote> never_again{};  // the old one never goes back, whatever a job says
};

struct Substitution {
    std::string wanted_group, wanted_item;  // item may be empty
    std::string offered_group, offered_item;
    std::string role;     // may be empty
    bool claimed_only{};  // the offered item is in its group by its seller's claim only
};

struct Opinion {
    Verdict at_most = Verdict::fits;   // does_not_fit is a veto
    std::vector<std::string> reasons;  // required when the verdict is lowered
    std::vector<std::string> conditions;
    std::vector<Caution> cautions;
    SourceNote source;
    // A proposal: where nothing is recorded between the two groups, they are equal by these columns, with what they
    // rest on in `source`. Shown as computed, never firmer than its rows, and never more than check first until the
    // part in hand is matched on the bench.
    std::vector<std::string> equal_by;
};

// What a domain makes of a value that is told, where a range or a list cannot say it: codes, gears.
struct Telling {
    std::string text;                  // as it is to be kept; empty: as typed
    std::vector<std::string> faults;   // it cannot be: what, and what to write instead
    std::vector<std::string> unusual;  // it is taken, and this is said
};

// ---------------------------------------------------------------- what core asks every domain of a vehicle

// Something told that speaks of trouble. Names no cause.
struct Trouble {
    std::string attribute;    // "leak_at"
    std::string title, text;  // "wet at", "pan_rail"
    SourceNote source;
};

struct Findings {
    std::vector<Trouble> troubles;
    std::vector<Caution> cautions;  // what the evidence lacks
};

struct Fastener {
    std::string what;        // "4 x bolt M10x1.25"
    std::string tightening;  // "40 N·m + 90°; new each time", or that it is not stated
    SourceNote source;
};

struct Tightening {
    bool none_here{};                 // nothing to tighten in this role, or listed with another
    std::vector<Fastener> fasteners;  // empty: not recorded
};

// An inquiry that says whether a service is due. Core fills the inputs named here from what was recorded; "" : it
// takes no such input.
struct ServiceInquiry {
    std::string role;  // the last thing fitted in this role is the last service
    Inquiry inquiry;
    std::string today, last_changed, last_at_km, odometer_km, km_per_year;
};

// "No order of these roles until ..." Core keeps it at every place where money is spent. With neither roles nor jobs it
// stops every order for the vehicle, whichever domain has the part.
struct Hold {
    std::vector<std::string> roles;       // empty: of `jobs` as a whole
    std::vector<std::string> jobs;        // empty: of any job
    std::string reason;                   // why, with what was found
    SourceNote source;                    // what it rests on
    std::string until;                    // what lifts it, as a clause without a full stop
    std::vector<std::string> attributes;  // to find out
    bool every_cure{};                    // of every job that mends something, whoever's its roles are
    double odds_steps{};                  // each -1 halves the odds that a small repair is enough
};

// ---------------------------------------------------------------- the domain and its manifest

class Domain {
public:
    virtual ~Domain() = default;
    virtual std::string_view title() const = 0;  // "filters and seals"
    virtual Vocabulary vocabulary() const = 0;
    // The SQL of schema/<domain>.sql: tables named `<domain>_...` only. The build embeds it.
    virtual std::string_view schema() const = 0;
    // Tables of other domains that this one reads.
    virtual std::vector<std::string> reads() const { return {}; }
    // The domain's own consistency rules over rows of `pack`; every fault, not the first.
    virtual std::vector<RowFault> check(const Facts&, std::string_view pack) const {
        (void)pack;
        return {};
    }
    virtual Examination examine(const Candidate&, const Services&) const { return {}; }
    virtual Opinion may_stand_in(const Substitution&, const Services&) const { return {}; }
    virtual std::vector<Inquiry> inquiries() const { return {}; }
    // One value of one of the domain's attributes, before it is written down and when it is shown.
    virtual Telling telling(std::string_view attribute, std::string_view text, const Services&) const {
        (void)attribute, (void)text;
        return {};
    }
    virtual Findings findings(const Services&) const { return {}; }
    virtual Tightening tightening(std::string_view role, const Services&) const {
        (void)role;
        return {true, {}};
    }
    virtual std::vector<ServiceInquiry> services_due() const { return {}; }
    virtual std::vector<Hold> holds(const Services&) const { return {}; }
};

// Raised with every change of these headers that a built plugin could notice; a comment is none.
#define CASEBOUND_CONTRACT 4
inline constexpr int contract_number = CASEBOUND_CONTRACT;

// First in the section `.casebound` of the file, so that it can be read without loading.
struct Manifest {
    char magic[8];    // "CASEBND"
    char stamp[80];   // CASEBOUND_STAMP: contract number, compiler, library ABI
    char domain[32];  // snake_case
    const Domain& (*domain_instance)();
};

inline constexpr char manifest_magic[8] = "CASEBND";
inline constexpr const char* manifest_section = ".casebound";

// The one object of a class of domain: made when it is first asked for, there until the program ends.
template <class SomeDomain> const Domain& instance_of() {
    static const SomeDomain domain;
    return domain;
}

}  // namespace casebound

#define CASEBOUND_TEXT_(x) #x
#define CASEBOUND_TEXT(x) CASEBOUND_TEXT_(x)
#if defined(__clang__)
#define CASEBOUND_COMPILER "clang " CASEBOUND_TEXT(__clang_major__)
#else
#define CASEBOUND_COMPILER "g++ " CASEBOUND_TEXT(__GNUC__)
#endif
#define CASEBOUND_STAMP                                                                                   \
    "contract " CASEBOUND_TEXT(                                                                           \
        CASEBOUND_CONTRACT) ", " CASEBOUND_COMPILER                                                       \
                            ", C++ ABI " CASEBOUND_TEXT(__GXX_ABI_VERSION) ", libstdc++ " CASEBOUND_TEXT( \
                                _GLIBCXX_RELEASE) " strings " CASEBOUND_TEXT(_GLIBCXX_USE_CXX11_ABI)

// In exactly one file of a plugin, for a domain whose hooks are functions of its namespace, named as the hooks are:
//   CASEBOUND_DOMAIN(door_seals, "door seals", check, examine, inquiries)
// The functions are casebound::door_seals::check and so on; of vocabulary() and schema_sql every domain has one.
#define CASEBOUND_DOMAIN(name, its_title, ...)                                             \
    namespace casebound::name {                                                            \
    namespace {                                                                            \
    namespace here = ::casebound::name;                                                    \
    class TheDomain final : public ::casebound::Domain {                                   \
    public:                                                                                \
        std::string_view title() const override { return its_title; }                      \
        ::casebound::Vocabulary vocabulary() const override { return here::vocabulary(); } \
        std::string_view schema() const override { return here::schema_sql; }              \
        __VA_OPT__(CASEBOUND_EXPAND_(CASEBOUND_HOOKS_(__VA_ARGS__)))                       \
    };                                                                                     \
    }                                                                                      \
    }                                                                                      \
    CASEBOUND_MANIFEST(#name, casebound::instance_of<casebound::name::TheDomain>)

// The same for a class derived from Domain, and any name:
//   CASEBOUND_MANIFEST("door_seals", casebound::instance_of<casebound::door_seals::DoorSeals>)
#define CASEBOUND_MANIFEST(domain_name, instance)                                  \
    extern "C" __attribute__((visibility("default"), used, section(".casebound"))) \
    const casebound::Manifest casebound_manifest{"CASEBND", CASEBOUND_STAMP, domain_name, &instance};

// One hook after the other, up to 27.
#define CASEBOUND_PARENS_ ()
#define CASEBOUND_EXPAND_(...) CASEBOUND_EXPAND_1_(CASEBOUND_EXPAND_1_(CASEBOUND_EXPAND_1_(__VA_ARGS__)))
#define CASEBOUND_EXPAND_1_(...) CASEBOUND_EXPAND_2_(CASEBOUND_EXPAND_2_(CASEBOUND_EXPAND_2_(__VA_ARGS__)))
#define CASEBOUND_EXPAND_2_(...) CASEBOUND_EXPAND_3_(CASEBOUND_EXPAND_3_(CASEBOUND_EXPAND_3_(__VA_ARGS__)))
#define CASEBOUND_EXPAND_3_(...) __VA_ARGS__
#define CASEBOUND_HOOKS_(hook, ...) \
    CASEBOUND_HOOK_##hook __VA_OPT__(CASEBOUND_HOOKS_AGAIN_ CASEBOUND_PARENS_(__VA_ARGS__))
#define CASEBOUND_HOOKS_AGAIN_() CASEBOUND_HOOKS_

// What each does. A hook that is not here is none, and does not compile.
#define CASEBOUND_HOOK_reads \
    std::vector<std::string> reads() const override { return here::reads(); }
#define CASEBOUND_HOOK_check                                                                                   \
    std::vector<::casebound::RowFault> check(const ::casebound::Facts& f, std::string_view p) const override { \
        return here::check(f, p);                                                                              \
    }
#define CASEBOUND_HOOK_examine                                                                                         \
    ::casebound::Examination examine(const ::casebound::Candidate& c, const ::casebound::Services& s) const override { \
        return here::examine(c, s);                                                                                    \
    }
#define CASEBOUND_HOOK_may_stand_in                                                                       \
    ::casebound::Opinion may_stand_in(const ::casebound::Substitution& c, const ::casebound::Services& s) \
        const override {                                                                                  \
        return here::may_stand_in(c, s);                                                                  \
    }
#define CASEBOUND_HOOK_inquiries \
    std::vector<::casebound::Inquiry> inquiries() const override { return here::inquiries(); }
#define CASEBOUND_HOOK_telling                                                                           \
    ::casebound::Telling telling(std::string_view a, std::string_view t, const ::casebound::Services& s) \
        const override {                                                                                 \
        return here::telling(a, t, s);                                                                   \
    }
#define CASEBOUND_HOOK_findings \
    ::casebound::Findings findings(const ::casebound::Services& s) const override { return here::findings(s); }
#define CASEBOUND_HOOK_tightening                                                                           \
    ::casebound::Tightening tightening(std::string_view r, const ::casebound::Services& s) const override { \
        return here::tightening(r, s);                                                                      \
    }
#define CASEBOUND_HOOK_services_due \
    std::vector<::casebound::ServiceInquiry> services_due() const override { return here::services_due(); }
#define CASEBOUND_HOOK_holds \
    std::vector<::casebound::Hold> holds(const ::casebound::Services& s) const override { return here::holds(s); }
