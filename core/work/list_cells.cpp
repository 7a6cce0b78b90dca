#include "core/work/list_cells.h"

#include <cctype>

namespace casebound {

namespace {

class Sample final : public BookRows {
public:
    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        constexpr std::size_t most = 60;
        std::vector<std::string> texts;
        for (const auto& cell : cells) texts.push_back(tidy(cell.text));
        sample.rows.emplace_back(line, std::move(texts));
        return sample.rows.size() < most;
    }
    void merged(const MergedCells&) override {}  // refused when it is drafted
    ListSample sample;
};

}  // namespace

std::string tidy(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool blank = static_cast<unsigned char>(c) <= ' ';
        if (!blank) out += c;
        else if (!out.empty() && out.back() != ' ') out += ' ';
    }
    while (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string number_by(std::string_view text, std::string_view decimal) {
    const char sign = decimal == "comma" ? ',' : '.', thousands = decimal == "comma" ? '.' : ',';
    std::string number;
    std::size_t since = 0;  // digits since the last mark of thousands
    bool marked = false, behind = false;
    for (const char c : text) {
        if (std::isdigit(static_cast<unsigned char>(c)) != 0) {
            number += c;
            ++since;
        } else if (c == sign && !behind && !number.empty() && (!marked || since == 3) && !decimal.empty()) {
            number += '.';
            behind = true;
        } else if (c == thousands && !behind && !decimal.empty() && (marked ? since == 3 : since >= 1 && since <= 3)) {
            marked = true;
            since = 0;
        } else return {};
    }
    if (number.empty() || number.back() == '.' || (marked && !behind && since != 3)) return {};
    return number;
}

ListSample sample_of(const ListFile& list) {
    Sample sample;
    list.read(sample);
    return std::move(sample.sample);
}

}  // namespace casebound
