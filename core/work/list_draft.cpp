#include "core/work/list_draft.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <map>
#include <set>
#include <utility>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/units.h"
#include "core/ground/utf8.h"
#include "core/pack/cell_check.h"
#include "core/pack/csv_rows.h"
#include "core/pack/spreadsheet_damage.h"
#include "core/shop/shop_offers.h"
#include "core/verdict/part_number.h"
#include "core/work/list_cells.h"
#include "core/work/loaded_items.h"

namespace casebound {

namespace {

constexpr std::size_t shown_rows = 4;

void append_row(std::string& text, std::initializer_list<std::string_view> cells) {
    bool first = true;
    for (const auto cell : cells) {
        if (!std::exchange(first, false)) text += ',';
        text += csv_cell(cell);
    }
    text += '\n';
}

// Why a row, or a part of it, is not taken.
struct Reason {
    std::string why;
};

class ListDraft final : public BookRows {
public:
    ListDraft(Session& session, const ListMapping& mapping, const std::string& pack)
        : mapping_(mapping), pack_(pack), catalog_(session.catalog()), words_(catalog_.vocabularies()),
          loaded_(catalog_, pack), fits_(catalog_, mapping.words), source_("list-" + pack) {
        for (const auto& [name, kind] : words_.item_kinds()) {
            kinds_[as_words(name)] = name;
            kinds_.emplace(as_words(kind.word.title), name);
        }
        for (const auto& [name, role] : words_.roles()) roles_of_[role.word.item_kind].push_back(name);
    }

    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        if (line < mapping_.header) return true;
        if (line == mapping_.header) return take_header(cells);
        ++draft.rows;
        line_ = line;
        cells_ = &cells;
        try {
            take_row();
        } catch (const Reason& reason) { not_taken(reason.why, false); }
        return true;
    }
    void merged(const MergedCells& cells) override {
        if (cells.last_line >= mapping_.header) refused_.push_back(cells.what_to_do());  // above it stand titles
    }
    void refuse_if_any(const std::string& path) {
        for (auto& one : refused_) one = fmt::format("{}: {}", path, one);
        if (!refused_.empty()) throw Error(Exit::bad_data, std::move(refused_));
    }
    DraftedList draft;

private:
    bool take_header(const std::vector<BookCell>& cells) {
        for (std::size_t i = 0; i < cells.size(); ++i) {
            draft.header.push_back(tidy(cells[i].text));
            auto meaning = mapping_.of(draft.header.back());
            if (meaning.starts_with("pack ")) {
                unit_of_column_ = meaning.substr(5);
                meaning = "pack";
            }
            at_[meaning].push_back(i);
        }
        for (const auto& name : draft.header)
            if (!name.empty() && std::none_of(mapping_.columns.begin(), mapping_.columns.end(),
                                              [&](const auto& column) { return column.first == name; }))
                draft.unknown.push_back(name);
        return true;
    }

    // The cell of the column that is `meaning`; null when no column is, or nothing stands in it.
    const BookCell* cell(std::string_view meaning) const {
        const auto found = at_.find(meaning);
        if (found == at_.end() || found->second.front() >= cells_->size()) return nullptr;
        const auto& one = (*cells_)[found->second.front()];
        return one.is == CellIs::empty ? nullptr : &one;
    }
    std::string text(std::string_view meaning) const {
        const auto* one = cell(meaning);
        if (!one) return {};
        if (one->is == CellIs::error || one->is == CellIs::date || one->is == CellIs::truth)
            throw Reason{fmt::format("`{}` is {}: type it as text", shown(one->text),
                                     one->is == CellIs::error  ? "what a spreadsheet leaves of a broken formula"
                                     : one->is == CellIs::date ? "a date there"
                                                               : "true or false there")};
        return tidy(one->text);
    }

    void not_taken(std::string why, bool partly) {
        std::vector<std::string> cells;
        for (const auto& one : *cells_) cells.emplace_back(one.text);
        const auto* part = cell("item");
        draft.not_taken.push_back(
            {line_, part ? std::string(part->text) : "", std::move(why), partly, std::move(cells)});
    }
    template <class Part> void on_its_own(Part part) {
        try {
            part();
        } catch (const Reason& reason) { not_taken(reason.why, true); }
    }

    struct Item {
        unsigned long row{};
        std::string key, kind, title, pack;
        std::string price;  // of its offer; "" none yet
        bool elsewhere{};   // another pack has it
    };

    void take_row() {
        std::string becomes;
        auto& item = item_of_row(becomes);
        on_its_own([&] { take_offer(item, becomes); });
        on_its_own([&] { take_claim(item, becomes); });
        on_its_own([&] { take_same_as(item, becomes); });
        if (draft.shown.size() < shown_rows) draft.shown.push_back(fmt::format("row {}: {}", line_, becomes));
    }

    // ---- the part

    std::string number_of_row() const {
        const auto* one = cell("item");
        if (!one) throw Reason{"no part number stands in it"};
        if (one->is == CellIs::number)
            throw Reason{fmt::format(
                "`{}` is a number there, and zeros, a point or digits may be lost: it must be text", shown(one->text))};
        const auto typed = text("item");
        if (auto damage = damage_in(typed, true); !damage.empty()) throw Reason{damage};
        auto key = number_as_key(typed);
        if (!is_key(key))
            throw Reason{fmt::format("`{}` is no part number: letters, digits and . _ + / - only", shown(typed))};
        return key;
    }

    Item& item_of_row(std::string& becomes) {
        Item now{line_, number_of_row(), {}, {}, {}, {}, false};
        const auto& known = loaded_.with(compared_number(now.key));
        const auto others = std::count_if(known.begin(), known.end(),
                                          [](const auto& one) { return !one.of_this_pack; });
        if (others > 1) throw Reason{fmt::format("{}: more than one part that is loaded has this number", now.key)};
        const auto other = std::find_if(known.begin(), known.end(), [](const auto& one) { return !one.of_this_pack; });
        now.elsewhere = other != known.end();
        if (now.elsewhere) now.key = other->key;
        now.kind = kind_of_row(now.elsewhere ? other->kind : "");
        now.title = text("title");
        if (now.title.empty()) now.title = fmt::format("{} {}", words_.item_kind(now.kind)->title, now.key);
        now.pack = pack_of_row(now.kind);
        becomes = fmt::format("{}, {}, \"{}\", {} {}{}", now.key, now.kind, now.title, now.pack,
                              words_.item_kind(now.kind)->unit, now.elsewhere ? ", which is loaded already" : "");
        const auto [found, is_new] = items_.emplace(compared_number(now.key), now);
        if (is_new) add_item(now);
        else require_same(found->second, now);
        return found->second;
    }

    void add_item(const Item& item) {
        if (!item.elsewhere) {
            append_row(draft.items, {item.key, item.kind, item.title, item.pack, "", source_});
            ++draft.item_count;
        }
        append_row(draft.groups, {group_of(item), item.kind, item.title, source_});
        append_row(draft.members, {group_of(item), item.key, "same", source_});
    }
    std::string group_of(const Item& item) const { return fmt::format("{}+{}", pack_, item.key); }

    static void require_same(const Item& first, const Item& now) {
        const auto differs = [&](const char* what, const std::string& a, const std::string& b) {
            if (a != b)
                throw Reason{fmt::format("row {} says {} of {}: `{}`, this one `{}`", first.row, what, now.key,
                                         shown(a), shown(b))};
        };
        differs("another key", first.key, now.key);
        differs("another item kind", first.kind, now.kind);
        differs("another title", first.title, now.title);
        differs("another content", first.pack, now.pack);
    }

    std::string kind_of_row(const std::string& known) const {
        const auto said = text("kind");
        std::string kind = said.empty() ? mapping_.kind : kind_named(said);
        if (kind.empty()) kind = known;
        if (kind.empty())
            throw Reason{"no column says what it is: say --kind KIND for all rows, or which column is its kind"};
        if (!known.empty() && kind != known)
            throw Reason{fmt::format("it is of kind {} here, and {} in a pack that is loaded", kind, known)};
        return kind;
    }
    std::string kind_named(const std::string& said) const {
        if (const auto ours = mapping_.words.find(said); ours != mapping_.words.end()) return ours->second;
        const auto found = kinds_.find(as_words(said));
        if (found == kinds_.end())
            throw Reason{fmt::format("`{}` is no item kind: --word \"{}=KIND\"", shown(said), said)};
        return found->second;
    }

    std::string pack_of_row(const std::string& kind) {
        const auto& unit = words_.item_kind(kind)->unit;
        const auto said = text("pack");
        if (said.empty()) {
            if (unit == "each") return "1";  // a thing that is counted is sold as one unless the list says otherwise
            throw Reason{fmt::format("how much one pack holds is not said, and {} is sold by the {}", kind, unit)};
        }
        if (cell("pack")->is == CellIs::number && (unit == "each" || !unit_of_column_.empty()))
            return plain_number(unit == "each" ? std::stod(said) : converted(std::stod(said), unit_of_column_, unit));
        return plain_number(quantity_of(said, unit));
    }
    // By the list's decimal sign; in a workbook a number has none.
    std::string number_in(std::string_view meaning, const std::string& said) {
        if (cell(meaning)->is == CellIs::number) return said;
        const bool signs = said.find_first_of(".,") != std::string::npos;
        draft.needs_decimal = draft.needs_decimal || (signs && mapping_.decimal.empty());
        return number_by(said, mapping_.decimal);
    }
    double quantity_of(const std::string& said, const std::string& unit) {
        const auto end = std::find_if(said.begin(), said.end(),
                                      [](char c) { return std::isalpha(static_cast<unsigned char>(c)) != 0; });
        const auto number = number_in("pack", tidy(std::string(said.begin(), end)));
        std::string in(end, said.end());
        if (in.empty()) in = unit_of_column_;
        if (in.empty() && unit != "each")
            throw Reason{fmt::format("`{}` says no unit: say which with --column \"COLUMN=pack {}\"", said, unit)};
        if (number.empty()) throw Reason{fmt::format("`{}` is no amount by this list's decimal sign", said)};
        try {
            return in.empty() ? std::stod(number)
                              : quantity_in(number + " " + (in == "l" ? "L" : in), unit == "each" ? "" : unit);
        } catch (const UnitFault& fault) { throw Reason{fault.what()}; }
    }

    // ---- what it costs

    std::string amount(std::string_view meaning) {
        auto said = text(meaning);
        for (const std::string_view sign :
             {"\xE2\x82\xAC", "$", "\xC2\xA3", "EUR", "USD", "GBP"})  // the shop has one currency
            if (const auto at = said.find(sign); at != std::string::npos) said = tidy(said.erase(at, sign.size()));
        if (said.empty()) return {};
        const auto number = number_in(meaning, said);
        if (number.empty())
            throw Reason{fmt::format("`{}` is no amount by this list's decimal sign: the offer is not taken", said)};
        try {
            const auto cents = cents_from(meaning, number);
            return fmt::format("{}.{:02}", cents / 100, cents % 100);
        } catch (const Error& error) { throw Reason{error.what()}; }
    }
    std::string whole(std::string_view meaning) const {
        const auto said = text(meaning);
        if (!std::all_of(said.begin(), said.end(),
                         [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }))
            throw Reason{fmt::format("`{}` is no whole number of {}: the offer is not taken", said, meaning)};
        return said;
    }

    void take_offer(Item& item, std::string& becomes) {
        const auto price = amount("price");
        if (price.empty()) return;
        if (!item.price.empty()) {
            if (item.price != price)
                throw Reason{fmt::format("row {} asks {} for {}, this one {}: the first stands", item.row, item.price,
                                         item.key, price)};
            return;
        }
        const auto core = amount("core"), days = whole("days"), available = whole("available");
        item.price = price;
        append_row(draft.offers, {mapping_.seller, item.key, price, available, days, core});
        ++draft.offer_count;
        becomes += fmt::format("; offered at {}", price);
    }

    // ---- what it fits, as the list claims

    std::vector<std::string> told_terms() const {
        std::vector<std::string> terms;
        const auto from = text("year from"), to = text("year to");
        if (!from.empty() || !to.empty()) {
            for (const auto& year : {from, to})
                if (!year.empty() && (year.size() != 4 || year.find_first_not_of("0123456789") != std::string::npos))
                    throw Reason{fmt::format("`{}` is no year of four digits: what it fits is not taken", year)};
            terms.push_back(fmt::format("year={}..{}", from, to));
        }
        for (const auto& [meaning, columns] : at_) {
            const auto* attribute = words_.attribute(meaning);
            const auto said = attribute ? text(meaning) : std::string();
            if (said.empty()) continue;
            try {
                for (const auto& span : parse_spans(said))
                    for (const auto& end : {span.low, span.high})
                        if (end) typed_value(*attribute, *end);
            } catch (const ConditionFault& fault) {
                throw Reason{fmt::format("{}: {}: what it fits is not taken", meaning, fault.what())};
            }
            terms.push_back(fmt::format("{}={}", meaning, said));
        }
        return terms;
    }

    void take_claim(const Item& item, std::string& becomes) {
        const auto told = told_terms();
        const auto words = text("fits"), said = text("line");
        const auto line = said.empty() ? mapping_.line : said;
        if (words.empty() && said.empty() && told.empty()) return;
        const auto& reading = reading_of(line, words, told);
        if (!reading.why.empty()) throw Reason{fmt::format("{}: what it fits is not taken", reading.why)};
        const auto role = role_for(item.kind);
        const auto note = fmt::format("the list's words, row {}: {}", line_, tidy(fmt::format("{} {}", said, words)));
        append_row(draft.applications,
                   {reading.line, role, "fits", group_of(item), reading.condition, "", note, "", source_});
        ++draft.claim_count;
        becomes += fmt::format("; said to fit {} of {}{}{}", role, reading.line,
                               reading.condition.empty() ? "" : " where ", reading.condition);
    }
    // A list says the same of many parts.
    const FitsReading& reading_of(const std::string& line, const std::string& words,
                                  const std::vector<std::string>& told) {
        constexpr std::size_t most_kept = 100000;
        if (readings_.size() > most_kept) readings_.clear();
        const auto [found,
                    is_new] = readings_.try_emplace(fmt::format("{}\n{}\n{}", line, words, fmt::join(told, ";")));
        if (is_new) found->second = fits_.read(line, words, told);
        return found->second;
    }
    std::string role_for(const std::string& kind) const {
        if (!mapping_.role.empty()) return mapping_.role;
        const auto found = roles_of_.find(kind);
        if (found == roles_of_.end()) throw Reason{fmt::format("no place takes a {}: what it fits is not taken", kind)};
        if (found->second.size() > 1)
            throw Reason{
                fmt::format("a {} goes into {}: say which with --role", kind, fmt::join(found->second, " or "))};
        return found->second.front();
    }

    void take_same_as(const Item& item, std::string& becomes) {
        const auto said = text("same_as");
        if (said.empty()) return;
        const auto& known = loaded_.with(compared_number(said));
        const auto others = std::count_if(known.begin(), known.end(),
                                          [](const auto& one) { return !one.of_this_pack; });
        if (others != 1)
            throw Reason{fmt::format("{} is {} of a pack that is loaded: that it serves for it is not taken", said,
                                     others == 0 ? "no part" : "more than one part")};
        const auto other = std::find_if(known.begin(), known.end(), [](const auto& one) { return !one.of_this_pack; });
        if (other->kind != item.kind)
            throw Reason{fmt::format("{} is a {}, this one a {}: that it serves for it is not taken", said, other->kind,
                                     item.kind)};
        for (const auto& group : catalog_.groups_of(other->key)) {
            if (!claimed_.insert(group + '\n' + item.key).second) continue;
            append_row(draft.members, {group, item.key, "claimed", source_});
            ++draft.claim_count;
        }
        becomes += fmt::format("; said to serve for {}", other->key);
    }

    const ListMapping& mapping_;
    const std::string pack_;
    const Catalog& catalog_;
    const Vocabularies& words_;
    LoadedItems loaded_;
    FitsText fits_;
    std::string source_, unit_of_column_;
    std::map<std::string, std::string, std::less<>> kinds_;
    std::map<std::string, std::vector<std::string>, std::less<>> roles_of_;
    std::map<std::string, std::vector<std::size_t>, std::less<>> at_;
    std::unordered_map<std::string, Item> items_;
    std::set<std::string> claimed_;
    std::vector<std::string> refused_;  // for which no row is taken
    std::unordered_map<std::string, FitsReading> readings_;
    unsigned long line_ = 0;
    const std::vector<BookCell>* cells_ = nullptr;
};

}  // namespace

DraftedList drafted(Session& session, const ListFile& list, const ListMapping& mapping, const std::string& pack) {
    ListDraft draft(session, mapping, pack);
    list.read(draft);
    draft.refuse_if_any(list.path());
    return std::move(draft.draft);
}

}  // namespace casebound
