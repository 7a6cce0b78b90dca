#include "core/commands/offer_file.h"

#include <algorithm>
#include <map>
#include <tuple>

#include <fmt/format.h>

#include "core/buy/pieces.h"
#include "core/ground/file_stamp.h"
#include "core/pack/csv_rows.h"

namespace casebound {

const std::vector<std::string>& offer_keys() {
    static const std::vector<std::string> keys{
        "seller",          "item",        "pack", "price",     "available", "days",      "returnable", "return_fee",
        "return_carriage", "return_days", "core", "core_days", "carriage",  "free_from", "minimum",    "note"};
    return keys;
}

namespace {

std::optional<int> small(const std::optional<std::int64_t>& value) {
    return value ? std::optional(static_cast<int>(std::min<std::int64_t>(*value, 100'000))) : std::nullopt;
}

// Whoever says on what terms it goes back says that it may.
std::optional<bool> returnable_from(const KeyValueArgs& words) {
    if (words.has("returnable")) return words.yes("returnable");
    return words.has("return_days") || words.has("return_fee") || words.has("return_carriage") ? std::optional(true)
                                                                                               : std::nullopt;
}

}  // namespace

OfferWords offer_from(const KeyValueArgs& words) {
    OfferWords made;
    auto& offer = made.offer;
    offer.seller = words.need("seller");
    if (offer.seller == own_shelf_name)
        throw Error(Exit::usage, "seller: \"own shelf\" is what lies here: casebound shelf put");
    if (offer.seller == here_name)
        throw Error(Exit::usage, "seller: \"on order or here\" is what was ordered or came: casebound record");
    made.terms = {words.cents("carriage"), words.cents("free_from"), words.cents("minimum")};
    offer.item = words.need("item");
    offer.pack_quantity = words.number("pack", "").value_or(1);
    words.need("price");
    offer.price_cents = *words.cents("price");
    offer.available = words.whole("available");
    offer.days = small(words.whole("days"));
    offer.returnable = returnable_from(words);
    offer.return_fee = words.share("return_fee").value_or(0);
    offer.return_carriage_cents = words.cents("return_carriage").value_or(0);
    offer.return_days = small(words.whole("return_days"));
    offer.core_cents = words.cents("core").value_or(0);
    offer.core_days = small(words.whole("core_days"));
    offer.note = words.text("note");
    return made;
}

namespace {

// A CSV whose header names keys of `offer add`; every row is one offer.
class OfferFile final : public CsvEvents {
public:
    explicit OfferFile(const std::string& path) : path_(name_of_input(path)) { read_csv(path, *this); }

    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        if (header_.empty()) {
            header_.assign(cells.begin(), cells.end());
            return;
        }
        const auto wrong = wrong_width(cells.size(), header_.size());
        if (!wrong.empty()) faults.push_back(fmt::format("{}:{}: {}", path_, line, wrong));
        else if (whole) take(line, cells);
    }
    void fault(unsigned long line, unsigned cell, const std::string& what) override {
        faults.push_back(fmt::format("{}:{}:{}: {}", path_, line, cell, what));
    }

    std::vector<OfferWords> offers;
    std::vector<std::string> faults;

private:
    void take(unsigned long line, const std::vector<std::string_view>& cells) {
        std::vector<std::string> words;
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (!cells[i].empty()) words.push_back(fmt::format("{}={}", header_[i], cells[i]));
        try {
            offers.push_back(offer_from(KeyValueArgs(words, 0, offer_keys())));
            offers.back().line = line;
        } catch (const Error& error) { faults.push_back(fmt::format("{}:{}: {}", path_, line, error.what())); }
    }
    std::string path_;
    std::vector<std::string> header_;
};

// What a file says twice, and not alike, is taken neither way.
class SaidOnce {
public:
    explicit SaidOnce(std::string path) : path_(std::move(path)) {}

    void take(const OfferWords& one) {
        const auto& offer = one.offer;
        const auto [known, fresh] = offers_.try_emplace({offer.seller, offer.item}, &one);
        if (!fresh && !alike(known->second->offer, offer))
            differ(one, *known->second,
                   fmt::format("{} by {} is offered twice, and not alike: leave one", offer.item, offer.seller));
        if (!one.terms.any()) return;
        if (terms_.try_emplace(offer.seller).second) sellers_.push_back(offer.seller);
        auto& terms = terms_[offer.seller];
        take(one, "carriage", one.terms.carriage, terms.carriage);
        take(one, "free-from", one.terms.free_from, terms.free_from);
        take(one, "minimum", one.terms.minimum, terms.minimum);
    }

    std::vector<SellerTerms> sellers() const {
        std::vector<SellerTerms> all;
        for (const auto& name : sellers_) {
            const auto& said = terms_.at(name);
            const auto cents = [](const Said& one) { return one.first; };
            all.push_back(TermsSaid{cents(said.carriage), cents(said.free_from), cents(said.minimum)}.of(name));
        }
        return all;
    }

    std::vector<std::string> faults;

private:
    using Said = std::pair<std::optional<std::int64_t>, const OfferWords*>;
    struct Terms {
        Said carriage, free_from, minimum;
    };

    static bool alike(const OfferOnFile& a, const OfferOnFile& b) {
        const auto all = [](const OfferOnFile& one) {
            return std::tie(one.pack_quantity, one.price_cents, one.available, one.days, one.returnable, one.return_fee,
                            one.return_carriage_cents, one.return_days, one.core_cents, one.core_days, one.note);
        };
        return all(a) == all(b);
    }
    void take(const OfferWords& one, const char* what, const std::optional<std::int64_t>& cents, Said& said) {
        if (!cents) return;
        if (!said.first) said = {cents, &one};
        else if (*said.first != *cents)
            differ(one, *said.second,
                   fmt::format("{} of {} is given twice, and not alike: leave one", what, one.offer.seller));
    }
    void differ(const OfferWords& one, const OfferWords& first, const std::string& what) {
        faults.push_back(fmt::format("{}:{}: {}; the other is line {}", path_, one.line, what, first.line));
    }

    std::string path_;
    std::map<std::pair<std::string, std::string>, const OfferWords*> offers_;
    std::map<std::string, Terms> terms_;
    std::vector<std::string> sellers_;  // as they came
};

}  // namespace

OffersRead read_offers(const std::string& path, const std::function<std::string(const std::string&)>& meant) {
    OfferFile file(path);
    if (!file.faults.empty()) throw Error(Exit::bad_data, file.faults);
    SaidOnce said(name_of_input(path));
    OffersRead read;
    for (auto& one : file.offers) {
        one.offer.item = meant(one.offer.item);
        said.take(one);
        read.offers.push_back(one.offer);
    }
    if (!said.faults.empty()) throw Error(Exit::bad_data, said.faults);
    read.sellers = said.sellers();
    return read;
}

}  // namespace casebound
