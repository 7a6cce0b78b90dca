#include "core/page/page_first.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/page/page_question.h"
#include "core/verdict/open_worlds.h"

namespace casebound {

namespace {

std::vector<std::string> may_still_be(const Attribute& attribute, const Situation& situation) {
    const auto* column = situation.model().set.column(attribute.name);
    if (!column) return attribute.choices;
    std::vector<std::string> texts;
    for (const auto& [value, share] : situation.model().set.values_left(*column, may_be_true(situation.narrowing())))
        texts.push_back(value->text);
    return texts;
}

void write_field(Html& html, const Visit& visit, const Situation& situation, const std::string& name) {
    const auto* attribute = visit.session.catalog().vocabularies().attribute(name);
    if (!attribute) return;
    const auto& hidden = situation.narrowing().out_of_reach;
    if (std::find(hidden.begin(), hidden.end(), name) != hidden.end()) {
        html.element("p", fmt::format("Cannot be got at: {}. What is left to do, and what it costs, is with the order.",
                                      attribute->title));
        return write_form(html, visit,
                          {"can-reach/" + name, "", "It can be got at after all", {}, {}, {{"attribute", name}}});
    }
    html.element("p", attribute->how, {{"class", "how"}});
    Form form{"tell/" + name,    "",
              "Write it down",   {value_field(*attribute, may_still_be(*attribute, situation))},
              evidence_fields(), {{"attribute", name}}};
    form.fields.front().label = attribute->title;
    write_form(html, visit, form);
    write_form(html, visit,
               {"cannot-reach/" + name, "", "Cannot get at it: ask for something else", {}, {}, {{"attribute", name}}});
}

}  // namespace

void write_first_things(Html& html, const Visit& visit, const Situation& situation,
                        const std::vector<FirstThing>& things) {
    const auto section = html.in("section", {{"class", "question"}, {"aria-labelledby", "find-out"}});
    html.element("h2", "Find out first", {{"id", "find-out"}});
    std::vector<std::string> written;  // one field for what settles two things
    for (const auto& one : things) {
        html.element("p", one.what + ".", {{"class", "what"}});
        html.element("p", fmt::format("Until then these wait: {}.", fmt::join(one.titles, ", ")), {{"class", "under"}});
        for (const auto& name : one.attributes) {
            if (std::find(written.begin(), written.end(), name) != written.end()) continue;
            written.push_back(name);
            write_field(html, visit, situation, name);
        }
    }
}

}  // namespace casebound
