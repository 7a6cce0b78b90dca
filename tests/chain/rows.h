// A world as the rows of a pack: file name and lines, without headers.
#pragma once

#include <map>
#include <string>

#include "tests/chain/world.h"

namespace chain {

std::map<std::string, std::string> pack_rows(const World& world);
std::string source_rows();

const char* name_of(int place);
std::string group_key(const World& world, int group);
std::string item_key(const World& world, int item);
std::string text_of(const When& when);
std::string text_of(const Tell& tell);
const char* attribute_name(int attribute);
const char* known_name(Known known);

}  // namespace chain
