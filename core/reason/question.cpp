#include "core/reason/question.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace casebound {

namespace {

constexpr double raising_minutes = 5, dismantling_minutes = 30;
constexpr std::size_t most_exact_attributes = 12, largest_searched = 3;

using Columns = std::vector<const Possibilities::Column*>;
using Lines = std::vector<const OpenLine*>;

bool agree(const Possibilities::Column& column, const Value& told, const Value& recorded) {
    if (!told.number || !recorded.number) return told == recorded;
    return std::abs(*told.number - *recorded.number) <=
           column.attribute.tolerance + 1e-9 * std::max(1.0, std::abs(*recorded.number));
}

// What telling value `v` of the column would leave.
Bits left_by(const Possibilities::Column& column, std::size_t v, const Bits& left) {
    Bits rest = column.holding[v];
    if (column.attribute.tolerance > 0)
        for (std::size_t u = 0; u < column.values.size(); ++u)
            if (agree(column, column.values[v], column.values[u])) rest |= column.holding[u];
    return rest &= left;
}

struct Reply {
    Bits left;
    double share;
};

std::vector<Reply> replies(const Possibilities& set, const Possibilities::Column& column, const Bits& left) {
    std::vector<Reply> all;
    const double whole = set.weight(left);
    for (std::size_t v = 0; v < column.values.size(); ++v)
        if (const Bits exact = column.holding[v] & left; exact.any())
            all.push_back({left_by(column, v, left), set.weight(exact) / whole});
    return all;
}

// Columns of which some answer rules something out.
Columns askable(const Possibilities& set, const Bits& left, const ToldOnce& told) {
    Columns columns;
    for (const auto& column : set.columns()) {
        if (column.attribute.finding || std::find(told.begin(), told.end(), column.attribute.name) != told.end() ||
            !set.undecided(column, left))
            continue;
        const auto all = column.attribute.tolerance > 0 ? replies(set, column, left) : std::vector<Reply>{};
        if (all.empty() ||
            std::any_of(all.begin(), all.end(), [&](const Reply& reply) { return !(reply.left == left); }))
            columns.push_back(&column);
    }
    return columns;
}

// What would be left on each configuration if everything were asked: the same for every line, so worked out once, when
// first looked at. Most lines are decided by the first few.
class AllAsked {
public:
    AllAsked(const Columns& columns, const Bits& left) : columns_(columns), left_(left) {
        left.for_each([&](std::size_t i) { configurations_.push_back(i); });
    }

    bool can_settle(const OpenLine& line) {
        for (std::size_t n = 0; n < configurations_.size(); ++n)
            if (line.settled(rest(n))) return true;
        return false;
    }

private:
    const Bits& rest(std::size_t n) {
        if (n < rests_.size()) return rests_[n];
        Bits rest = left_;
        for (const auto* column : columns_) rest = left_by(*column, column->at[configurations_[n]], rest);
        constexpr std::size_t most_kept_bits = std::size_t{1} << 25;  // 4 MB
        if (n * left_.size() > most_kept_bits) return beyond_ = std::move(rest);
        return rests_.emplace_back(std::move(rest));
    }

    const Columns& columns_;
    const Bits& left_;
    std::vector<std::size_t> configurations_;
    std::vector<Bits> rests_;  // of the first configurations, as far as there is room
    Bits beyond_;
};

Lines still_open(const Columns& columns, const Bits& left, const std::vector<OpenLine>& lines) {
    Lines open;
    AllAsked asked(columns, left);
    for (const auto& line : lines)
        if (!line.settled(left) && asked.can_settle(line)) open.push_back(&line);
    return open;
}

// Entropy of the partition that the lines' marks make, in bits: what is still open about the answers.
double openness(const Possibilities& set, const Bits& left, const Lines& lines) {
    double bits = 0;
    const double whole = set.weight(left);
    for (const auto* line : lines)
        for (const auto& mark : line->marks) {
            const double share = set.weight(mark & left) / whole;
            if (share > 0 && share < 1) bits -= share * std::log2(share) + (1 - share) * std::log2(1 - share);
        }
    return bits;
}

double openness_after(const Possibilities& set, const Possibilities::Column& column, const Bits& left,
                      const Lines& lines) {
    double sum = 0;
    for (const auto& reply : replies(set, column, left)) sum += reply.share * openness(set, reply.left, lines);
    return sum;
}

Question weigh(const Possibilities& set, const Possibilities::Column& column, const Bits& left, const Lines& lines) {
    Question question;
    question.column = &column;
    question.effort_minutes = effort_minutes(column.attribute);
    std::vector<bool> helped(lines.size());
    for (const auto& reply : replies(set, column, left)) {
        std::size_t settled = 0;
        for (std::size_t i = 0; i < lines.size(); ++i)
            if (lines[i]->settled(reply.left)) {
                ++settled;
                helped[i] = true;
            }
        question.settles += reply.share * static_cast<double>(settled);
        question.settles_most = std::max(question.settles_most, settled);
    }
    for (std::size_t i = 0; i < lines.size(); ++i)
        if (helped[i]) question.lines.push_back(lines[i]->name);
    return question;
}

bool differ(double x, double y) { return std::abs(x - y) > 1e-12 * std::max(std::abs(x), std::abs(y)); }

double worth(const Question& question) { return question.settles / question.effort_minutes; }

bool better(const Question& a, const Question& b) {
    if (differ(worth(a), worth(b))) return worth(a) > worth(b);
    const double a_gain = a.gain_bits / a.effort_minutes, b_gain = b.gain_bits / b.effort_minutes;
    if (differ(a_gain, b_gain)) return a_gain > b_gain;
    if (a.column->attribute.dismantling != b.column->attribute.dismantling) return b.column->attribute.dismantling;
    return a.column->attribute.name < b.column->attribute.name;
}

// Each answer that is still possible, one after the other; how likely they are does not matter here.
bool settles_all(const Columns& chosen, std::size_t at, const Bits& left, const OpenLine& line) {
    if (line.settled(left)) return true;
    if (at == chosen.size()) return false;
    const auto& column = *chosen[at];
    for (std::size_t v = 0; v < column.values.size(); ++v)
        if (column.holding[v].meets(left) && !settles_all(chosen, at + 1, left_by(column, v, left), line)) return false;
    return true;
}

// Subsets of `columns` of one size, cheapest effort first among those that settle.
void try_subsets(const Columns& columns, std::size_t size, std::size_t from, Columns& chosen, double effort,
                 const Bits& left, const OpenLine& line, double& best_effort, std::vector<std::string>& best) {
    if (effort >= best_effort) return;  // it only grows
    if (chosen.size() == size) {
        if (!settles_all(chosen, 0, left, line)) return;
        best_effort = effort;
        best.clear();
        for (const auto* column : chosen) best.push_back(column->attribute.name);
        return;
    }
    for (std::size_t i = from; i < columns.size(); ++i) {
        chosen.push_back(columns[i]);
        try_subsets(columns, size, i + 1, chosen, effort + effort_minutes(columns[i]->attribute), left, line,
                    best_effort, best);
        chosen.pop_back();
    }
}

// All that settle, less what can be left out, dearest first.
std::vector<std::string> without_the_needless(Columns kept, const Bits& left, const OpenLine& line) {
    std::stable_sort(kept.begin(), kept.end(), [](const auto* a, const auto* b) {
        return effort_minutes(a->attribute) > effort_minutes(b->attribute);
    });
    for (std::size_t i = 0; i < kept.size();) {
        auto fewer = kept;
        fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
        if (settles_all(fewer, 0, left, line)) kept = std::move(fewer);
        else ++i;
    }
    std::vector<std::string> names;
    for (const auto* column : kept) names.push_back(column->attribute.name);
    return names;
}

ToldOnce and_told(ToldOnce told, const std::string& attribute) {
    told.push_back(attribute);
    return told;
}

struct Exact {
    const Possibilities& set;
    const std::vector<OpenLine>& lines;
    std::size_t most_states;
    std::map<std::pair<std::vector<std::uint64_t>, ToldOnce>, double> known{};
    bool given_up = false;

    // An answer within a tolerance need not decide its attribute; any other does, and is seen in `left`.
    static ToldOnce after(const ToldOnce& told, const Possibilities::Column& column) {
        if (column.attribute.tolerance <= 0) return told;
        auto now = and_told(told, column.attribute.name);
        std::sort(now.begin(), now.end());
        return now;
    }

    double minutes(const Bits& left, const ToldOnce& told) {
        const auto columns = askable(set, left, told);
        if (still_open(columns, left, lines).empty()) return 0;
        const std::pair key(left.copied_words(), told);
        if (const auto found = known.find(key); found != known.end()) return found->second;
        if (known.size() >= most_states) {
            given_up = true;
            return 0;
        }
        double least = HUGE_VAL;
        for (const auto* column : columns) {
            double sum = effort_minutes(column->attribute);
            for (const auto& reply : replies(set, *column, left)) {
                if (sum >= least) break;
                sum += reply.share * minutes(reply.left, after(told, *column));
            }
            least = std::min(least, sum);
        }
        return known[key] = least;
    }
};

}  // namespace

double effort_minutes(const Attribute& attribute) {
    return attribute.minutes + (attribute.raised ? raising_minutes : 0) +
           (attribute.dismantling ? dismantling_minutes : 0);
}

std::vector<Question> questions(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                                const ToldOnce& told) {
    std::vector<Question> all;
    const auto columns = askable(set, left, told);
    const auto open = still_open(columns, left, lines);
    if (open.empty()) return all;
    for (const auto* column : columns) all.push_back(weigh(set, *column, left, open));
    std::sort(all.begin(), all.end(), better);
    // Bits cost far more to count: only where settled lines do not decide.
    const double best = worth(all.front());
    const bool decided = best > 0 && (all.size() == 1 || differ(worth(all[1]), best));
    for (auto& question : all)
        if (!decided && !differ(worth(question), best))
            question.gain_bits = openness(set, left, open) - openness_after(set, *question.column, left, open);
    std::sort(all.begin(), all.end(), better);
    // Where no mark sees the difference, whatever still tells configurations apart, cheapest first.
    if (std::all_of(all.begin(), all.end(), [](const Question& q) { return q.settles <= 0 && q.gain_bits <= 1e-12; })) {
        std::stable_sort(all.begin(), all.end(),
                         [](const Question& a, const Question& b) { return a.effort_minutes < b.effort_minutes; });
        return all;
    }
    std::erase_if(all, [](const Question& q) { return q.settles <= 0 && q.gain_bits <= 1e-12; });
    return all;
}

std::optional<Question> next_question(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                                      const ToldOnce& told) {
    auto all = questions(set, left, lines, told);
    if (all.empty()) return std::nullopt;
    all.front().answers = set.values_left(*all.front().column, left);
    return all.front();
}

std::vector<std::string> settling_attributes(const Possibilities& set, const Bits& left, const OpenLine& line,
                                             const ToldOnce& told) {
    std::vector<std::string> best;
    const auto columns = askable(set, left, told);
    if (line.settled(left) || !settles_all(columns, 0, left, line)) return best;
    const auto searched = columns.size() <= most_exact_attributes ? columns.size() : largest_searched;
    for (std::size_t size = 1; size <= searched && best.empty(); ++size) {
        Columns chosen;
        double effort = HUGE_VAL;
        try_subsets(columns, size, 0, chosen, 0, left, line, effort, best);
    }
    if (best.empty()) best = without_the_needless(columns, left, line);
    std::sort(best.begin(), best.end());
    return best;
}

double greedy_minutes(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                      const ToldOnce& told) {
    const auto question = next_question(set, left, lines, told);
    if (!question) return 0;
    double sum = question->effort_minutes;
    const auto now = and_told(told, question->column->attribute.name);
    for (const auto& reply : replies(set, *question->column, left))
        sum += reply.share * greedy_minutes(set, reply.left, lines, now);
    return sum;
}

std::optional<double> least_minutes(const Possibilities& set, const Bits& left, const std::vector<OpenLine>& lines,
                                    const ToldOnce& told, std::size_t most_states) {
    if (askable(set, left, told).size() > most_exact_attributes) return std::nullopt;
    Exact exact{set, lines, most_states};
    auto start = told;
    std::sort(start.begin(), start.end());
    const double minutes = exact.minutes(left, start);
    return exact.given_up ? std::nullopt : std::optional(minutes);
}

}  // namespace casebound
