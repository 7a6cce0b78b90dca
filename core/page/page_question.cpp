#include "core/page/page_question.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/page/page_routes.h"
#include "core/reason/condition_words.h"
#include "core/say/report.h"

namespace casebound {

namespace {

std::vector<std::string> still_possible(const Question& question, const Situation& situation) {
    std::vector<std::string> texts;
    for (const auto& [value, share] : situation.model().set.values_left(*question.column, situation.narrowing().left))
        texts.push_back(value_words(question.column->attribute, value->text));
    return texts;
}

std::string sentence(std::string text) {
    if (!text.empty() && text.back() != '.') text += '.';
    return text;
}

std::string effort_text(const Attribute& attribute) {
    return fmt::format("{} min{}{}", plain_number(attribute.minutes, 1), attribute.raised ? ", vehicle raised" : "",
                       attribute.dismantling ? ", something must come off" : "");
}

void write_other_link(Html& html, const Visit& visit, const Attribute& attribute, std::string_view before) {
    Fields query;
    for (const auto& field : visit.request.query)
        if (field.first != "ask") query.push_back(field);
    query.emplace_back("ask", attribute.name);
    html.link(address(visit.request.path, query),
              fmt::format("{}{} ({})", before, attribute.title, effort_text(attribute)));
}

// The next best in sight, the others opened.
void write_other_questions(Html& html, const Visit& visit, const std::vector<Question>& all, const Question& asked) {
    constexpr std::size_t most = 8;
    std::vector<const Attribute*> others;
    for (const auto& question : all)
        if (&question != &asked && others.size() < most) others.push_back(&question.column->attribute);
    if (others.empty()) return;
    {
        const auto line = html.in("p", {{"class", "other"}});
        write_other_link(html, visit, *others.front(), "or: ");
    }
    if (others.size() < 2) return;
    const auto details = html.in("details");
    html.element("summary", fmt::format("Other things to find out: {}", others.size() - 1));
    const auto list = html.in("ul", {{"class", "links"}});
    for (std::size_t i = 1; i < others.size(); ++i) {
        const auto item = html.in("li");
        write_other_link(html, visit, *others[i], "");
    }
}

using ValuesLeft = std::vector<std::pair<const Value*, double>>;

bool is_measured(const Attribute& attribute) {
    return attribute.kind == ValueKind::number || attribute.kind == ValueKind::size;
}

bool answers_in_sight(const Attribute& attribute, const ValuesLeft& values) {
    constexpr std::size_t most = 4;
    return !attribute.several && values.size() > 1 && values.size() <= most;
}

// What was looked at just now: a few answers, each a large button told with one touch; else one field and its button.
void write_answers(Html& html, const Visit& visit, const Attribute& attribute, const ValuesLeft& values,
                   const std::vector<std::string>& possible) {
    const bool measured = is_measured(attribute);
    Form form{"answer/" + attribute.name,
              "",
              measured ? "I measured it" : "I read it",
              {},
              {},
              {{"attribute", attribute.name}, {"evidence", measured ? "measured" : "read"}}};
    if (answers_in_sight(attribute, values)) {
        for (const auto& [value, share] : values)
            form.answers.emplace_back(value->text, value_words(attribute, value->text));
    } else {
        form.fields = {value_field(attribute, possible)};
        form.fields.front().label = "What you found";
        form.fields.front().required = false;  // said when it is left empty, like any other fault
        if (form.fields.front().kind == Field::Kind::one_of) {
            form.fields.front().kind = Field::Kind::choice;
            form.fields.front().options.insert(form.fields.front().options.begin(), {"", "choose"});
        }
    }
    write_form(html, visit, form);
}

// Known in another way than by looking just now: how, when, with a photo or a note.
void write_told_otherwise(Html& html, const Visit& visit, const Attribute& attribute,
                          const std::vector<std::string>& possible, const std::string& settles) {
    Form form{"tell/" + attribute.name, "",
              "Write it down",          {value_field(attribute, possible)},
              evidence_fields(),        {{"attribute", attribute.name}}};
    form.fields.front().label = "What you found";
    const bool refused = visit.refused && visit.refused->form == form.key;
    const auto details = html.in("details", refused ? HtmlAttributes{{"open", ""}} : HtmlAttributes{});
    html.element("summary", "Another value, or known in another way");
    html.element("p", settles, {{"class", "under"}});
    write_form(html, visit, form);
}

void write_asked(Html& html, const Visit& visit, const Situation& situation, const Question& question,
                 std::size_t open) {
    const auto& attribute = question.column->attribute;
    html.element("p", attribute.title, {{"class", "what"}});
    html.element("p",
                 fmt::format("{} {}{}.", sentence(attribute.how), effort_text(attribute),
                             question.settles_most == 0 ? ""
                                                        : fmt::format("; decides up to {} of {}", question.settles_most,
                                                                      plural(open, "place"))),
                 {{"class", "how"}});
    const auto possible = still_possible(question, situation);
    const auto values = situation.model().set.values_left(*question.column, situation.narrowing().left);
    if (visit.request.may_edit) {
        const auto row = html.in("div", {{"class", "asked"}});
        write_answers(html, visit, attribute, values, possible);
        write_form(html, visit,
                   {"cannot-reach/" + attribute.name, "", "Cannot get at it", {}, {}, {{"attribute", attribute.name}}});
    }
    if (visit.request.may_edit) write_told_otherwise(html, visit, attribute, possible, settles_text(question, open));
}

// What nobody could get at, each with a way back.
void write_out_of_reach(Html& html, const Visit& visit, const Situation& situation) {
    for (const auto& name : situation.narrowing().out_of_reach) {
        const auto* attribute = visit.session.catalog().vocabularies().attribute(name);
        html.element("p", fmt::format("Cannot be got at: {}.", attribute ? attribute->title : name));
        write_form(html, visit, {"can-reach/" + name, "", "It can be got at after all", {}, {}, {{"attribute", name}}});
    }
}

const Question& chosen(const std::vector<Question>& all, const std::string& attribute) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const Question& one) { return one.column->attribute.name == attribute; });
    return found == all.end() ? all.front() : *found;
}

}  // namespace

Field value_field(const Attribute& attribute, const std::vector<std::string>& possible) {
    constexpr std::size_t in_sight = 8, in_list = 80;
    Field field{"value", attribute.title, Field::Kind::words};
    field.required = true;
    const bool measured = attribute.kind == ValueKind::number;
    if (!measured && !possible.empty() && possible.size() <= in_list) {
        field.kind = possible.size() <= in_sight ? Field::Kind::one_of : Field::Kind::choice;
        if (field.kind == Field::Kind::choice) field.options.emplace_back("", "choose");
        for (const auto& text : possible)
            field.options.emplace_back(text, attribute.choices.empty() ? text : spaced(text));
        return field;
    }
    field.unit = attribute.unit;
    if (attribute.kind == ValueKind::month) field.hint = "YYYY-MM. ";
    if (possible.size() > in_sight)
        field.hint += fmt::format("Still possible: {} to {}.", possible.front(), possible.back());
    else if (!possible.empty()) field.hint += fmt::format("Still possible: {}.", fmt::join(possible, ", "));
    return field;
}

void write_question(Html& html, const Visit& visit, const Situation& situation, const std::vector<OpenLine>& lines) {
    const auto& left = situation.narrowing().left;
    const auto open = static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [&](const OpenLine& line) { return !line.settled(left); }));
    const auto all = questions(situation.model().set, left, lines, situation.narrowing().not_asked());
    if (all.empty() && open == 0 && situation.narrowing().out_of_reach.empty()) return;  // nothing waits
    const auto section = html.in("section", {{"class", "question"}, {"aria-labelledby", "find-out"}});
    html.element("h2", "Find out first", {{"id", "find-out"}});
    if (all.empty()) {
        html.element("p",
                     open == 0
                         ? "Nothing else to find out."
                         : fmt::format("{} open, and nothing on record would tell them apart.", plural(open, "place")),
                     {{"class", "what"}});
        if (open > 0 && !situation.narrowing().out_of_reach.empty())
            html.link(vehicle_address(situation.name(), "/order"),
                      "What is left to do, and what it costs: choose the job");
        write_out_of_reach(html, visit, situation);
        return;
    }
    const auto& question = chosen(all, visit.asked("ask"));
    write_asked(html, visit, situation, question, open);
    write_other_questions(html, visit, all, question);
    write_out_of_reach(html, visit, situation);
}

}  // namespace casebound
