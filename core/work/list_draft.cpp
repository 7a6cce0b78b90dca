#include "core/work/list_draft.h"

#include <algorithm>
#include <cmath>
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
#include "core/shop/shop_settings.h"
#include "core/verdict/part_number.h"
#include "core/work/list_cells.h"
#include "core/work/list_row.h"
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

class ListDraft final : public BookRows {
public:
    ListDraft(Session& session, const ListMapping& mapping, const std::string& pack)
        : mapping_(mapping), row_(mapping, ShopSettings(session.shop()).get("currency").value_or("")), pack_(pack),
          catalog_(session.catalog()), words_(catalog_.vocabularies()), loaded_(catalog_, pack),
          fits_(catalog_, mapping.words), source_("list-" + pack) {
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
        row_.take(line, cells);
        try {
            take_row();
        } catch (const Reason& reason) { not_taken(reason.why, false); }
        draft.needs_decimal = row_.needs_decimal();
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
        draft.header = row_.take_header(cells);
        for (auto name = draft.header.begin(); name != draft.header.end(); ++name)
            if (mapping_.of(*name) != "-" && std::count(draft.header.begin(), name, *name) == 1)
                refused_.push_back(fmt::format("row {}: the column `{}` is there twice: give one another name",
                                               mapping_.header, shown(*name)));
        if (!refused_.empty()) return false;
        for (const auto& name : draft.header)
            if (!name.empty() && std::none_of(mapping_.columns.begin(), mapping_.columns.end(),
                                              [&](const auto& column) { return column.first == name; }))
                draft.unknown.push_back(name);
        return true;
    }

    void not_taken(std::string why, bool partly) {
        const auto* part = row_.cell("item");
        draft.not_taken.push_back(
            {row_.line(), part ? std::string(part->text) : "", std::move(why), partly, row_.as_it_stands()});
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
        if (draft.shown.size() < shown_rows) draft.shown.push_back(fmt::format("row {}: {}", row_.line(), becomes));
    }

    // ---- the part

    std::string number_of_row() const {
        const auto* one = row_.cell("item");
        if (!one) throw Reason{"no part number stands in it"};
        if (one->is == CellIs::number)
            throw Reason{fmt::format(
                "`{}` is a number there, and zeros, a point or digits may be lost: it must be text", shown(one->text))};
        const auto typed = row_.text("item");
        if (auto damage = damage_in(typed, true); !damage.empty()) throw Reason{damage};
        auto key = number_as_key(typed);
        if (!is_key(key))
            throw Reason{fmt::format("`{}` is no part number: letters, digits and . _ + / - only", shown(typed))};
        return key;
    }

    Item& item_of_row(std::string& becomes) {
        Item now{row_.line(), number_of_row(), {}, {}, {}, {}, false};
        const auto& known = loaded_.with(compared_number(now.key));
        const auto others = std::count_if(known.begin(), known.end(),
                                          [](const auto& one) { return !one.of_this_pack; });
        if (others > 1) throw Reason{fmt::format("{}: more than one part that is loaded has this number", now.key)};
        const auto found_other = std::find_if(known.begin(), known.end(),
                                              [](const auto& one) { return !one.of_this_pack; });
        const auto* other = found_other == known.end() ? nullptr : &*found_other;
        now.elsewhere = other != nullptr;
        if (other) now.key = other->key;
        now.kind = kind_of_row(other ? other->kind : "");
        now.title = row_.text("title");
        if (now.title.empty()) now.title = fmt::format("{} {}", words_.item_kind(now.kind)->title, now.key);
        now.pack = pack_of_row(now, other);
        if (other) require_no_other_use(now, *other);
        becomes = fmt::format(
            "{}, {}, \"{}\", {} {}{}", now.key, now.kind, now.title, now.pack, words_.item_kind(now.kind)->unit,
            other ? fmt::format(", which is loaded already: \"{}\" in {}", other->title, other->pack) : std::string());
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
        const auto said = row_.text("kind");
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

    std::string pack_of_row(const Item& item, const LoadedItems::One* other) {
        const auto& unit = words_.item_kind(item.kind)->unit;
        if (row_.text("pack").empty()) {
            if (other && unit == "each") return plain_number(other->pack_quantity);
            if (unit == "each") return "1";  // a thing that is counted is sold as one unless the list says otherwise
            throw Reason{fmt::format("how much one pack holds is not said, and {} is sold by the {}", item.kind, unit)};
        }
        const auto contents = row_.contents(unit);
        if (other && !as_labels_round(contents, other->pack_quantity))
            throw Reason{fmt::format("{} holds {} {} in this list, and {} {} in {}, which is loaded", item.key,
                                     plain_number(contents), unit, plain_number(other->pack_quantity), unit,
                                     other->pack)};
        return plain_number(contents);
    }
    // 0.95 L on the label of what holds 0.946 L.
    static bool as_labels_round(double a, double b) {
        constexpr double most_apart = 0.005;
        return std::abs(a - b) <= most_apart * std::max(a, b);
    }

    // ---- what it costs

    void take_offer(Item& item, std::string& becomes) {
        const auto price = row_.amount("price");
        if (price.empty()) return;
        if (!item.price.empty()) {
            if (item.price != price)
                throw Reason{fmt::format("row {} asks {} for {}, this one {}: the first stands", item.row, item.price,
                                         item.key, price)};
            return;
        }
        const auto core = row_.amount("core"), days = row_.whole("days"), available = row_.whole("available");
        item.price = price;
        append_row(draft.offers, {mapping_.seller, item.key, price, available, days, core});
        ++draft.offer_count;
        becomes += fmt::format("; offered at {}", price);
    }

    // ---- what it fits, as the list claims

    std::vector<std::string> told_terms() const {
        std::vector<std::string> terms;
        const auto from = row_.text("year from"), to = row_.text("year to");
        if (!from.empty() || !to.empty()) {
            for (const auto& year : {from, to})
                if (!year.empty() && (year.size() != 4 || year.find_first_not_of("0123456789") != std::string::npos))
                    throw Reason{fmt::format("`{}` is no year of four digits: what it fits is not taken", year)};
            terms.push_back(fmt::format("year={}..{}", from, to));
        }
        for (const auto& [meaning, column] : row_.columns()) {
            const auto* attribute = words_.attribute(meaning);
            const auto said = attribute ? row_.text(meaning) : std::string();
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

    // Null when the row says nothing of it.
    const FitsReading* claim_of_row() {
        const auto told = told_terms();
        const auto words = row_.text("fits"), said = row_.text("line");
        const auto line = said.empty() ? mapping_.line : said;
        if (words.empty() && said.empty() && told.empty()) return nullptr;
        return &reading_of(line, words, told);
    }

    void take_claim(const Item& item, std::string& becomes) {
        const auto* claim = claim_of_row();
        if (!claim) return;
        const auto& reading = *claim;
        if (!reading.why.empty()) throw Reason{fmt::format("{}: what it fits is not taken", reading.why)};
        const auto role = role_for(item.kind);
        const auto note = fmt::format("the list's words, row {}: {}", row_.line(),
                                      tidy(fmt::format("{} {}", row_.text("line"), row_.text("fits"))));
        append_row(draft.applications,
                   {reading.line, role, "fits", group_of(item), reading.condition, "", note, "", source_});
        ++draft.claim_count;
        becomes += fmt::format("; said to fit {} of {}{}{}", role, reading.line,
                               reading.condition.empty() ? "" : " where ", reading.condition);
    }
    // Two makers may use one number: what is said to fit nowhere that the loaded part does is a question, not an offer.
    void require_no_other_use(const Item& item, const LoadedItems::One& other) {
        if (mapping_.words.contains(row_.text("item"))) return;  // somebody has said that it is the same
        const FitsReading* claim = nullptr;
        std::string role;
        try {
            claim = claim_of_row();
            if (claim && claim->why.empty()) role = role_for(item.kind);
        } catch (const Reason&) {}  // said again when the claim is taken
        const auto* line = role.empty() ? nullptr : catalog_.line(claim->line);
        if (!line || line->open) return;
        const auto known = fits_of(other, *line, role);
        if (known.none() || line->set.where(parse_condition(claim->condition)).meets(known)) return;
        throw Reason{
            fmt::format("{} is loaded already, \"{}\" in {}, and fits nowhere that this list says: if it is the "
                        "same part, --word \"{}={}\"",
                        item.key, other.title, other.pack, row_.text("item"), item.key)};
    }
    // Where packs other than this one say that a part fits.
    Bits fits_of(const LoadedItems::One& part, const LineModel& line, const std::string& role) {
        auto& by_group = statements_[line.id];
        if (by_group.empty())
            for (const auto& row : catalog_.applications(line))
                if (row.says == Says::fits && row.withdrawn.empty()) by_group[row.group].push_back(&row);
        Bits where(line.set.size());
        for (const auto& key : catalog_.groups_of(part.key)) {
            const auto group = key.starts_with(pack_ + "+") ? std::nullopt : catalog_.group(key);
            const auto found = group ? by_group.find(group->id) : by_group.end();
            if (found == by_group.end()) continue;
            for (const auto* row : found->second)
                if (catalog_.name_of(row->role) == role) where |= *row->on;
        }
        return where;
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
        const auto said = row_.text("same_as");
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
    ListRow row_;
    const std::string pack_;
    const Catalog& catalog_;
    const Vocabularies& words_;
    LoadedItems loaded_;
    FitsText fits_;
    std::string source_;
    std::map<std::string, std::string, std::less<>> kinds_;
    std::map<std::string, std::vector<std::string>, std::less<>> roles_of_;
    std::unordered_map<std::string, Item> items_;
    std::set<std::string> claimed_;
    std::vector<std::string> refused_;  // for which no row is taken
    std::unordered_map<std::string, FitsReading> readings_;
    std::map<std::int64_t, std::unordered_map<std::int64_t, std::vector<const ApplicationRow*>>> statements_;
};

}  // namespace

DraftedList drafted(Session& session, const ListFile& list, const ListMapping& mapping, const std::string& pack) {
    ListDraft draft(session, mapping, pack);
    list.read(draft);
    draft.refuse_if_any(list.path());
    return std::move(draft.draft);
}

}  // namespace casebound
