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

void write_other_questions(Html& html, const Visit& visit, const std::vector<Question>& all, const Question& asked) {
    constexpr std::size_t most = 8;
    if (all.size() < 2) return;
    const auto details = html.in("details");
    html.element("summary", "Cannot get at it? Other things to find out");
    const auto list = html.in("ul", {{"class", "links"}});
    std::size_t shown = 0;
    for (const auto& question : all) {
        const auto& attribute = question.column->attribute;
        if (&question == &asked || shown++ >= most) continue;
        Fields query;
        for (const auto& field : visit.request.query)
            if (field.first != "ask") query.push_back(field);
        query.emplace_back("ask", attribute.name);
        const auto item = html.in("li");
        html.link(address(visit.request.path, query), fmt::format("{} ({})", attribute.title, effort_text(attribute)));
    }
}

using ValuesLeft = std::vector<std::pair<const Value*, double>>;

// A few answers to choose from, each a large button: what was looked at just now is told with one touch.
void write_answers(Html& html, const Visit& visit, const Attribute& attribute, const ValuesLeft& values) {
    const bool measured = attribute.kind == ValueKind::number || attribute.kind == ValueKind::size;
    Form form{"answer/" + attribute.name,
              "",
              "",
              {},
              {},
              {{"attribute", attribute.name}, {"evidence", measured ? "measured" : "read"}}};
    for (const auto& [value, share] : values)
        form.answers.emplace_back(value->text, value_words(attribute, value->text));
    write_form(html, visit, form);
}

bool answers_in_sight(const Attribute& attribute, const ValuesLeft& values) {
    constexpr std::size_t most = 4;
    return !attribute.several && values.size() > 1 && values.size() <= most;
}

void write_asked(Html& html, const Visit& visit, const Situation& situation, const Question& question,
                 std::size_t open) {
    const auto& attribute = question.column->attribute;
    html.element("p", attribute.title, {{"class", "what"}});
    html.element("p", sentence(attribute.how), {{"class", "how"}});
    html.element("p", fmt::format("{}. {}", effort_text(attribute), settles_text(question, open)),
                 {{"class", "under"}});
    Form form{"tell/" + attribute.name, "",
              "Write it down",          {value_field(attribute, still_possible(question, situation))},
              evidence_fields(),        {{"attribute", attribute.name}}};
    form.fields.front().label = "What you found";
    const auto values = situation.model().set.values_left(*question.column, situation.narrowing().left);
    if (answers_in_sight(attribute, values) && visit.request.may_edit) {
        write_answers(html, visit, attribute, values);
        const bool refused = visit.refused && visit.refused->form == form.key;
        const auto details = html.in("details", refused ? HtmlAttributes{{"open", ""}} : HtmlAttributes{});
        html.element("summary", "Something else, or known in another way");
        write_form(html, visit, form);
    } else {
        write_form(html, visit, form);
    }
    write_form(html, visit,
               {"cannot-reach/" + attribute.name,
                "",
                "Cannot get at it: ask for something else",
                {},
                {},
                {{"attribute", attribute.name}}});
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
    const auto section = html.in("section", {{"class", "question"}, {"aria-labelledby", "find-out"}});
    html.element("h2", "Find out first", {{"id", "find-out"}});
    if (all.empty()) {
        html.element("p",
                     open == 0
                         ? "Nothing to find out: no place waits for an answer."
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
