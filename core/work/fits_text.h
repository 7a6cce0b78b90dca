// What a seller's list says in free text that a part fits: "fits 03-06 2.2 4WD". A word is understood when exactly one
// attribute of that very vehicle line has it as a value; years of two digits when the line's own years leave one reading.
// Everything else is said to be not understood, never guessed; so is what no configuration of the line meets.
#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

struct FitsReading {
    std::string line, condition;
    std::string why;  // why it is not understood; "" when it is
};

class FitsText {
public:
    using Words = std::map<std::string, std::string, std::less<>>;  // the list's word: engine=2.2, or a line

    FitsText(const Catalog& catalog, const Words& words);

    // `line`: as the list says it, or "" when the text may name it. `told`: terms that other columns say.
    FitsReading read(std::string_view line, std::string_view text, const std::vector<std::string>& told) const;

private:
    using Tokens = std::vector<std::string>;
    struct Line {
        std::string key, title;
        std::vector<Tokens> names;                            // its title, and what the list calls it
        std::map<std::string, std::set<std::string>> values;  // of each attribute, in small letters
        int first_year = 0, last_year = 0;                    // 0: none on record
        bool has_months = false;
    };

    const Line* named(std::string_view line) const;
    const Line* named_in(Tokens& tokens, std::string& why) const;  // takes the name out of them
    std::string years(const Line& line, const std::string& token) const;
    static bool may_be_month(const Line& line, const std::string& token);  // of a token that is read as years
    std::string term(const Line& line, const std::string& token, std::string& why) const;
    std::vector<std::string> attributes_with(const Line& line, const std::string& value) const;

    std::string unmet(const Line& line, const std::string& condition) const;

    const Catalog& catalog_;
    Words words_;
    std::vector<Line> lines_;
};

}  // namespace casebound
