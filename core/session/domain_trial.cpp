#include "core/session/domain_trial.h"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <deque>
#include <filesystem>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/host/plugin_probe.h"
#include "core/pack/pack.h"
#include "core/pack/reference_packs.h"
#include "core/reason/condition.h"
#include "core/session/inquiry.h"
#include "core/verdict/catalog.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;
using namespace std::chrono_literals;

constexpr ProbeLimits limits{20'000ms, 10};
constexpr std::size_t most_rounds = 8, most_groups = 40;

// What a domain declared, and none of its hooks: a pack is loaded by it here, outside of the child.
class Declared : public Domain {
public:
    explicit Declared(const LoadedDomain& domain)
        : title_(domain.title), schema_(domain.domain.schema().answer.value_or("")),
          reads_(domain.domain.reads().answer.value_or(std::vector<std::string>{})), vocabulary_(domain.vocabulary) {}
    std::string_view title() const override { return title_; }
    std::string_view schema() const override { return schema_; }
    std::vector<std::string> reads() const override { return reads_; }
    Vocabulary vocabulary() const override { return vocabulary_; }

private:
    std::string title_, schema_;
    std::vector<std::string> reads_;
    Vocabulary vocabulary_;
};

class OwnFolder {
public:
    OwnFolder() {
        std::string name = (fs::temp_directory_path() / "casebound-trial-XXXXXX").string();
        if (!::mkdtemp(name.data()))
            throw Error(Exit::cannot_write, fmt::format("{}: cannot be made: check space and permissions", name));
        path_ = name;
    }
    ~OwnFolder() {
        std::error_code ignored;
        fs::remove_all(path_, ignored);
    }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;
    std::string file(const std::string& name) const { return path_ + "/" + name; }

private:
    std::string path_;
};

// A vehicle of the pack's first line, of which nothing is known but what is told.
class TrialVehicle : public VehicleView {
public:
    TrialVehicle(std::string line, std::vector<Told> told) : line_(std::move(line)), told_(std::move(told)) {}
    std::string name() const override { return "trial"; }
    std::string line() const override { return line_; }
    std::vector<PossibleValue> possible(std::string_view attribute) const override {
        for (const auto& told : told_)
            if (told.attribute == attribute) return {{told.text, told.number, 1}};
        return {};
    }
    std::vector<Told> told() const override { return told_; }
    Evidence left_rests_on() const override { return Evidence::invented; }
    Holds holds(std::string_view condition) const override {
        try {
            return parse_condition(condition).terms.empty() ? Holds::yes : Holds::open;
        } catch (const ConditionFault& fault) { throw std::invalid_argument(fault.what()); }
    }

private:
    std::string line_;
    std::vector<Told> told_;
};

std::string value_of(const Attribute& attribute, std::size_t round) {
    const auto among = [&](const std::vector<std::string>& values) { return values[round % values.size()]; };
    switch (attribute.kind) {
        case ValueKind::yes_no: return among({"yes", "no"});
        case ValueKind::year: return "2006";
        case ValueKind::month: return "2006-10";
        case ValueKind::size: return "25x32x7";
        case ValueKind::number:
            return fmt::format("{}",
                               std::max(attribute.extent.least, std::min(attribute.extent.most, 1.0 + double(round))));
        case ValueKind::choice: break;
    }
    return attribute.choices.empty() ? "something" : among(attribute.choices);
}

// In the first round nothing is told.
std::vector<Told> told_in(const Vocabulary& vocabulary, std::size_t round) {
    std::vector<Told> all;
    if (round == 0) return all;
    for (const auto& attribute : vocabulary.attributes) {
        Told told{attribute.name, value_of(attribute, round - 1), TellEvidence::measured, "2026-01-01", std::nullopt};
        try {
            told.number = typed_value(attribute, told.text).number;
        } catch (const ConditionFault&) {}
        all.push_back(std::move(told));
    }
    return all;
}

class Trial {
public:
    Trial(const LoadedDomain& domain, const std::string& catalog, const ProbeSteps& steps)
        : domain_(domain), catalog_(catalog), facts_(catalog_.facts_for(domain.domain)), step_(steps) {}

    void run() {
        check();
        const auto lines = catalog_.line_keys();
        for (std::size_t round = 0; round <= most_rounds; ++round) {
            const TrialVehicle vehicle(lines.empty() ? "trial" : lines[round % lines.size()],
                                       told_in(domain_.vocabulary, round));
            const Services services{facts_, engine_, &vehicle};
            ask_of_vehicle(services);
            ask_of_candidates(services);
            ask_of_substitutions(services);
            run_inquiries(services);
        }
        if (!faults_.empty()) throw Error(Exit::refused, faults_);
    }

private:
    // A hook that fails is told once, whatever it was asked.
    template <class T> bool answered(const Asked<T>& asked, std::string_view hook) {
        if (!asked && failed_.emplace(hook).second) faults_.push_back(asked.failure);
        return static_cast<bool>(asked);
    }
    void fault(std::string_view hook, std::string_view what) {
        auto text = fmt::format("{}: {}", hook, what);
        if (std::find(faults_.begin(), faults_.end(), text) == faults_.end()) faults_.push_back(std::move(text));
    }

    // The report of a probe is short: the same step is told once.
    void step(const std::string& next) {
        if (next != now_) step_(now_ = next);
    }

    void check() {
        step("in check()");
        std::set<std::string> packs;
        for (const auto& row : facts_.rows("sources")) packs.insert(row.origin.pack);
        for (const auto& pack : packs) {
            const auto asked = domain_.domain.check(facts_, pack);
            if (!answered(asked, "check")) continue;
            for (const auto& one : *asked) fault(fmt::format("check({})", pack), one.what);
        }
    }

    void ask_of_vehicle(const Services& services) {
        step("in findings()");
        if (const auto asked = domain_.domain.findings(services); answered(asked, "findings"))
            for (const auto& trouble : asked->troubles) known_attribute("findings()", trouble.attribute);
        step("in holds()");
        if (const auto asked = domain_.domain.holds(services); answered(asked, "holds"))
            for (const auto& hold : *asked) take(hold);
        for (const auto& told : services.vehicle->told()) {
            step("in telling()");
            answered(domain_.domain.telling(told.attribute, told.text, services), "telling");
            answered(domain_.domain.telling(told.attribute, "?", services), "telling");
        }
        for (const auto& role : domain_.vocabulary.roles) {
            step("in tightening()");
            answered(domain_.domain.tightening(role.name, services), "tightening");
        }
        step("in services_due()");
        answered(domain_.domain.services_due(), "services_due");
    }

    void take(const Hold& hold) {
        if (hold.reason.empty() || hold.until.empty())
            fault("holds()", "a hold without a reason, or without what lifts it");
        for (const auto& role : hold.roles) known_role("holds()", role);
        for (const auto& attribute : hold.attributes) known_attribute("holds()", attribute);
    }

    // Groups on record of the role's kind, and one that has no row.
    std::vector<std::string> groups_of(const std::string& kind) const {
        std::vector<std::string> keys{"not-on-record"};
        for (const auto& row : facts_.rows("groups", "kind", kind))
            if (keys.size() <= most_groups) keys.emplace_back(row.text("group_key"));
        return keys;
    }

    void ask_of_candidates(const Services& services) {
        for (const auto& role : domain_.vocabulary.roles)
            for (const auto& group : groups_of(role.item_kind)) {
                step("in examine()");
                if (const auto asked = domain_.domain.examine({role.name, group, ""}, services);
                    answered(asked, "examine"))
                    take(*asked);
            }
    }

    void take(const Examination& examination) {
        for (const auto& objection : examination.objections) {
            if (objection.reason.empty()) fault("examine()", "an objection without a reason: say why");
            known_condition(objection.condition);
        }
        for (const auto& companion : examination.companions) known_role("examine()", companion.role);
        for (const auto& attribute : examination.questions) known_attribute("examine()", attribute);
    }

    void ask_of_substitutions(const Services& services) {
        for (const auto& kind : domain_.vocabulary.item_kinds) {
            const auto groups = groups_of(kind.name);
            for (std::size_t i = 0; i < groups.size(); ++i) {
                step("in may_stand_in()");
                const auto& offered = groups[(i + 1) % groups.size()];
                const auto asked = domain_.domain.may_stand_in({groups[i], "", offered, "", "", false}, services);
                if (answered(asked, "may_stand_in") && asked->at_most != Verdict::fits && asked->reasons.empty())
                    fault("may_stand_in()", "a verdict lowered without a reason: say why");
            }
        }
    }

    // Inputs that are refused, or missing, are no fault.
    void run_inquiries(const Services& services) {
        const auto inquiries = domain_.domain.inquiries();
        if (!answered(inquiries, "inquiries")) return;
        for (const auto& inquiry : *inquiries) {
            step(fmt::format("in the inquiry {}", inquiry.name));
            try {
                const auto answer = run_inquiry_with(domain_.domain, inquiry, {}, services).answer;
                if (answer.verdict == Verdict::not_answered) fault(inquiry.name, answer.headline);
            } catch (const Error&) {}
        }
    }

    void known_condition(const std::string& condition) {
        try {
            for (const auto& term : parse_condition(condition).terms)
                if (const auto* attribute = catalog_.vocabularies().attribute(term.attribute))
                    Matcher(*attribute, term);
                else known_attribute("examine()", term.attribute);
        } catch (const ConditionFault& wrong) {
            fault("examine()", fmt::format("the condition `{}`: {}", condition, wrong.what()));
        }
    }
    // Of a domain whose words are not here nothing can be said: another may declare it.
    void known_attribute(std::string_view hook, const std::string& name) {
        if (!name.empty() && !catalog_.vocabularies().attribute(name))
            fault(hook, fmt::format("`{}` is no attribute that any loaded domain declares", name));
    }
    void known_role(std::string_view hook, const std::string& name) {
        if (!catalog_.vocabularies().role(name))
            fault(hook, fmt::format("`{}` is no role that any loaded domain declares", name));
    }

    const LoadedDomain& domain_;
    const Catalog catalog_;
    const Facts& facts_;
    Engine engine_;
    const ProbeSteps& step_;
    std::string now_;
    std::set<std::string, std::less<>> failed_;
    std::vector<std::string> faults_;
};

std::vector<std::string> lines_of(std::string_view text) {
    std::vector<std::string> lines;
    while (!text.empty()) {
        const auto line = text.substr(0, text.find('\n'));
        lines.emplace_back(line);
        text.remove_prefix(std::min(text.size(), line.size() + 1));
    }
    return lines;
}

// What the domains ship, in a catalog of its own; one pack may lean on another. Faults by the pack's domain.
std::map<std::string, std::string> load_shipped(const Plugins& plugins, const std::string& catalog) {
    std::map<std::string, std::string> faults;
    auto packs = reference_packs(plugins);
    for (auto before = packs.size() + 1; packs.size() < before;) {
        before = packs.size();
        faults.clear();
        std::erase_if(packs, [&](const ReferencePack& pack) {
            const auto report = load_pack(pack.folder, catalog, plugins);
            if (report.faults.empty()) return true;
            faults[pack.domain] = fmt::format("its own pack has {} faults, the first: {}", report.faults.size(),
                                              report.faults.front().text());
            return false;
        });
    }
    return faults;
}

// A catalog with the domains' words and tables, and no row but one source.
void make_empty(const OwnFolder& folder, const Plugins& plugins, const std::string& catalog) {
    const auto pack = folder.file("empty");
    new_pack(pack, "empty", plugins, {"sources"});
    load_pack(pack, catalog, plugins);
}

}  // namespace

std::vector<DomainFault> domain_trials(const Plugins& plugins) {
    const OwnFolder folder;
    std::deque<Declared> declared;
    Plugins silent;
    for (const auto& one : plugins.domains) {
        declared.emplace_back(one);
        silent.domains.emplace_back(one.name, one.path, declared.back(), one.vocabulary);
    }
    const auto catalog = folder.file("catalog.sqlite");
    make_empty(folder, silent, catalog);
    const auto unsound = load_shipped(silent, catalog);
    std::vector<DomainFault> faults;
    for (const auto& one : plugins.domains) {
        if (const auto own = unsound.find(one.name); own != unsound.end()) faults.push_back({one.name, own->second});
        const auto work = [&](const ProbeSteps& step) { Trial(one, catalog, step).run(); };
        for (auto& line : lines_of(probe_fault(work, limits))) faults.push_back({one.name, std::move(line)});
    }
    return faults;
}

}  // namespace casebound
