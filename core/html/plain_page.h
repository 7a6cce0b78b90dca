// A page of one heading and a sentence or two, for what the server itself has to say. Needs no style sheet.
#pragma once

#include <string>

#include "core/html/html.h"

namespace casebound {

struct PlainLink {
    std::string to, text;
};

std::string plain_page(const std::string& title, const std::string& text, const PlainLink& link = {});
std::string plain_page(const std::string& title, const std::string& text, Html&& more);  // below the text

}  // namespace casebound
