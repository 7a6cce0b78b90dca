#include "core/say/list_words.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"

namespace casebound {

namespace {

class Wording {
public:
    explicit Wording(const Catalog& catalog) : catalog_(catalog) {}

    void word(std::string& text) const { text = in_titles(catalog_, text); }
    void word(std::vector<std::string>& texts) const {
        for (auto& text : texts) word(text);
    }
    void word(std::vector<Caution>& cautions) const {
        for (auto& caution : cautions) word(caution.text);
    }
    void word(ListLine& line) const {
        for (auto& held : line.held) word(held.hold.reason), word(held.hold.until);
        for (auto& doubt : line.doubts) word(doubt.reason), word(doubt.until);
        for (auto& group : line.answer.groups) word(group.cautions), group.against = in_words(group.against, catalog_);
        for (auto& part : line.answer.parts) word(part.cautions);
        word(line.notes);
        word(line.companion_of);
    }

private:
    const Catalog& catalog_;
};

}  // namespace

std::vector<Leaf> in_words(std::vector<Leaf> leaves, const Catalog& catalog) {
    for (auto& leaf : leaves) {
        if (leaf.row() || leaf.told) continue;
        Leaf worded(in_titles(catalog, leaf.text()), leaf.origin());
        worded.redundant = leaf.redundant;
        leaf = std::move(worded);
    }
    return leaves;
}

PartsList in_words(PartsList list, const Catalog& catalog) {
    const Wording wording(catalog);
    for (auto& line : list.lines) wording.word(line);
    for (auto& kit : list.kits) wording.word(kit.surplus);
    wording.word(list.domain_questions);
    wording.word(list.cautions);
    return list;
}

SwapAnswer in_words(SwapAnswer answer, const Catalog& catalog) {
    const Wording wording(catalog);
    for (auto* text : {&answer.offered, &answer.wanted}) wording.word(*text);
    for (auto* texts : {&answer.reasons, &answer.requirements, &answer.also_requires, &answer.differences})
        wording.word(*texts);
    for (auto& condition : answer.conditions) condition = condition_words(condition, catalog.vocabularies());
    wording.word(answer.cautions);
    answer.leaves = in_words(std::move(answer.leaves), catalog);
    answer.withdrawn = in_words(std::move(answer.withdrawn), catalog);
    return answer;
}

Answer in_words(Answer answer, const Catalog& catalog) {
    const Wording wording(catalog);
    wording.word(answer.headline);
    wording.word(answer.assumptions);
    wording.word(answer.cautions);
    for (auto& line : answer.lines) {
        wording.word(line.label);
        if (auto* text = std::get_if<std::string>(&line.value)) wording.word(*text);
    }
    for (auto& grid : answer.grids) {
        wording.word(grid.columns);
        for (auto& row : grid.rows) wording.word(row);
    }
    return answer;
}

Answer in_words(Answer answer, Session& session) {
    const Catalog* catalog = nullptr;
    try {
        catalog = &session.catalog();
    } catch (const Error&) { return answer; }
    return in_words(std::move(answer), *catalog);
}

std::string amount_open_text(const ListLine& line, const Option& option) {
    return line.amount_open && option.containers.empty()
               ? fmt::format("{}, {}", fluid_words(option.group), amount_open_words)
               : "";
}

std::string stay_count(const Stay& stay) {
    return stay.count > 0 ? fmt::format("{} out and {} in", stay.count, stay.count) : "";
}

std::string stay_words(const Stay& stay) {
    const auto count = stay_count(stay);
    return fmt::format("{}, {}{}{}", stay.title, stay.place, count.empty() ? "" : ", ", count);
}

std::string stay_flag(const ListLine& line, const PartsList& list) {
    std::string flag;
    for (const auto& stay : list.stays) {
        if (stay.role != line.answer.role) continue;
        if (stay.where.empty()) return "SOMETHING STAYS BEHIND";
        flag = "SOMETHING MAY STAY BEHIND";
    }
    return flag;
}

SaidOnce::SaidOnce(const PartsList& list) {
    std::map<std::string, int> count;
    for (const auto& line : list.lines)
        for (const auto& why : in_the_way(line))
            if (++count[why] == 2) shared_.push_back(why);
}

std::vector<std::string> SaidOnce::texts() const {
    if (shared_.size() < 2) return shared_;
    std::vector<std::string> all;
    for (std::size_t i = 0; i < shared_.size(); ++i) all.push_back(fmt::format("{}. {}", i + 1, shared_[i]));
    return all;
}

std::string SaidOnce::of(const ListLine& line) const {
    std::vector<std::string> parts;
    for (const auto& why : in_the_way(line)) {
        const auto at = std::find(shared_.begin(), shared_.end(), why);
        parts.push_back(at == shared_.end()   ? why
                        : shared_.size() == 1 ? "see above"
                                              : fmt::format("see above, {}", at - shared_.begin() + 1));
    }
    return fmt::format("{}", fmt::join(parts, "; "));
}

}  // namespace casebound
