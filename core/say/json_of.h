// The same answers as JSON: {"schema":"casebound.<command>/1", ...}, described in schema/answers/.
#pragma once

#include <string>

#include <nlohmann/json.hpp>

#include "core/say/first_thing.h"
#include "core/session/situation.h"
#include "core/verdict/interchange.h"
#include "core/verdict/parts_list.h"

namespace casebound {

using Json = nlohmann::ordered_json;

Json document(const std::string& command);  // with its schema set
Json json_of(const Origin& origin);
Json json_of(const Leaf& leaf);
Json json_of(const RoleAnswer& answer);
Json json_of(const Question& question);
Json json_of(const SwapAnswer& answer);
Json json_of(const PartsList& list);
Json json_of(const Answer& answer);
Json json_of(const Situation& situation);
Json json_of(const GroupAnswer& group);
Json json_of(const Edge& edge);
Json json_of(const Member& member);
Json json_of(const Option& option);
Json json_of(const ListLine& line);
Json json_of(const HeldOrder& held);
Json json_of(const Doubt& doubt);
Json json_of(const FirstThing& first);
Json json_of(const Stay& stay);
Json json_of(const Kit& kit);
Json json_of(const Caution& caution);
Json json_of(const SourceNote& source);
Json json_of(const AnswerLine& line);
Json json_of(const Series& series);
Json json_of(const Grid& grid);
Json json_of(const Picture& picture);
Json json_of(const Photo& photo);

template <class T> Json json_list(const std::vector<T>& values) {
    Json list = Json::array();
    for (const auto& value : values) list.push_back(json_of(value));
    return list;
}

}  // namespace casebound
