#include "core/work/list_row.h"

#include <algorithm>
#include <array>
#include <cctype>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/units.h"
#include "core/ground/utf8.h"
#include "core/shop/shop_offers.h"
#include "core/work/list_cells.h"

namespace casebound {

namespace {

// Signs and codes (ISO 4217) of currencies; "$" is whatever dollar the shop has.
struct CurrencySign {
    std::string_view sign, code;
};
constexpr std::array<CurrencySign, 20> currency_signs{
    {{"\xE2\x82\xAC", "EUR"}, {"\xC2\xA3", "GBP"}, {"\xC2\xA5", "JPY"}, {"EUR", "EUR"}, {"USD", "USD"},
     {"GBP", "GBP"},          {"CHF", "CHF"},      {"SEK", "SEK"},      {"NOK", "NOK"}, {"DKK", "DKK"},
     {"PLN", "PLN"},          {"CZK", "CZK"},      {"HUF", "HUF"},      {"CAD", "CAD"}, {"AUD", "AUD"},
     {"NZD", "NZD"},          {"SGD", "SGD"},      {"HKD", "HKD"},      {"JPY", "JPY"}, {"$", "USD"}}};
constexpr std::array<std::string_view, 6> dollars{"USD", "CAD", "AUD", "NZD", "SGD", "HKD"};

std::string code_of(std::string_view sign) {
    for (const auto& one : currency_signs)
        if (one.sign == sign) return std::string(one.code);
    return std::string(sign);
}

// That a header names: "Price (EUR)", not "Europe".
std::string currency_in(const std::string& header) {
    const auto words = fmt::format(" {} ", as_words(header));
    for (const auto& one : currency_signs) {
        const bool code = one.sign == one.code;
        if (code ? words.find(fmt::format(" {} ", as_words(one.code))) != std::string::npos
                 : header.find(one.sign) != std::string::npos)
            return std::string(one.sign);
    }
    return {};
}

}  // namespace

ListRow::ListRow(const ListMapping& mapping, const std::string& currency)
    : mapping_(mapping), currency_(code_of(currency)), shop_has_currency_(!currency.empty()) {}

std::vector<std::string> ListRow::take_header(const std::vector<BookCell>& cells) {
    std::vector<std::string> header;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        header.push_back(tidy(cells[i].text));
        auto meaning = mapping_.of(header.back());
        if (meaning.starts_with("pack ")) {
            unit_of_column_ = meaning.substr(5);
            meaning = "pack";
        }
        if (meaning == "price" || meaning == "core") {
            auto sign = currency_in(header.back());
            currency_of_column_.emplace(meaning, taken_out_of(sign));
        }
        at_.emplace(meaning, i);
    }
    return header;
}

void ListRow::take(unsigned long line, const std::vector<BookCell>& cells) {
    line_ = line;
    cells_ = &cells;
}

std::vector<std::string> ListRow::as_it_stands() const {
    std::vector<std::string> texts;
    for (const auto& one : *cells_) texts.emplace_back(one.text);
    return texts;
}

const BookCell* ListRow::cell(std::string_view meaning) const {
    const auto found = at_.find(meaning);
    if (found == at_.end() || found->second >= cells_->size()) return nullptr;
    const auto& one = (*cells_)[found->second];
    return one.is == CellIs::empty ? nullptr : &one;
}

std::string ListRow::text(std::string_view meaning) const {
    const auto* one = cell(meaning);
    if (!one) return {};
    if (one->is == CellIs::error || one->is == CellIs::date || one->is == CellIs::truth)
        throw Reason{fmt::format("`{}` is {}: type it as text", shown(one->text),
                                 one->is == CellIs::error  ? "what a spreadsheet leaves of a broken formula"
                                 : one->is == CellIs::date ? "a date there"
                                                           : "true or false there")};
    return tidy(one->text);
}

// By the list's decimal sign; in a workbook a number has none.
std::string ListRow::number_in(std::string_view meaning, const std::string& said) {
    if (cell(meaning)->is == CellIs::number) return said;
    const bool signs = said.find_first_of(".,") != std::string::npos;
    needs_decimal_ = needs_decimal_ || (signs && mapping_.decimal.empty());
    return number_by(said, mapping_.decimal);
}

std::string ListRow::taken_out_of(std::string& said) const {
    const bool dollar_shop = std::find(dollars.begin(), dollars.end(), currency_) != dollars.end();
    std::string named;
    for (const auto& one : currency_signs) {
        const auto at = said.find(one.sign);
        const auto code = one.sign == "$" && dollar_shop ? currency_ : std::string(one.code);
        if (at == std::string::npos || (!named.empty() && code != named)) continue;  // a second one is no amount
        said = tidy(said.erase(at, one.sign.size()));
        named = code;
    }
    return named;
}

void ListRow::require_ours(const std::string& currency, std::string_view said) {
    if (currency.empty() || currency == currency_) return;
    if (currency_.empty()) currency_ = currency;
    else
        throw Reason{fmt::format("`{}` is in {}, and {} in {}: the offer is not taken", shown(said), currency,
                                 shop_has_currency_ ? "the shop's prices are" : "other prices of this list are",
                                 currency_)};
}

std::string ListRow::amount(std::string_view meaning) {
    const auto typed = text(meaning);
    auto said = typed;
    const auto currency = taken_out_of(said);
    if (said.empty()) return {};
    require_ours(currency_of_column_.find(meaning)->second, typed);
    require_ours(currency, typed);
    const auto number = number_in(meaning, said);
    if (number.empty())
        throw Reason{fmt::format("`{}` is no amount by this list's decimal sign: the offer is not taken", said)};
    try {
        const auto cents = cents_from(meaning, number);
        return fmt::format("{}.{:02}", cents / 100, cents % 100);
    } catch (const Error& error) { throw Reason{error.what()}; }
}

std::string ListRow::whole(std::string_view meaning) const {
    const auto said = text(meaning);
    if (!std::all_of(said.begin(), said.end(), [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }))
        throw Reason{fmt::format("`{}` is no whole number of {}: the offer is not taken", said, meaning)};
    return said;
}

double ListRow::contents(const std::string& unit) {
    const auto said = text("pack");
    const bool counted = unit == "each";
    if (cell("pack")->is == CellIs::number && (counted || !unit_of_column_.empty()))
        return counted ? std::stod(said) : converted(std::stod(said), unit_of_column_, unit);
    const auto end = std::find_if(said.begin(), said.end(),
                                  [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; });
    const auto number = number_in("pack", tidy(std::string(said.begin(), end)));
    std::string in(end, said.end());
    if (in.empty()) in = unit_of_column_;
    if (in.empty() && !counted)
        throw Reason{fmt::format("`{}` says no unit: say which with --column \"COLUMN=pack {}\"", said, unit)};
    if (number.empty()) throw Reason{fmt::format("`{}` is no amount by this list's decimal sign", said)};
    try {
        return in.empty() ? std::stod(number) : quantity_in(number + " " + (in == "l" ? "L" : in), counted ? "" : unit);
    } catch (const UnitFault& fault) { throw Reason{fault.what()}; }
}

}  // namespace casebound
