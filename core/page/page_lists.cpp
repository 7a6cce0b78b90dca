// A seller's list sent from the browser: what each column is, with what the rows become, then confirmed and taken over. All
// of it through the commands of the same names.
#include <algorithm>
#include <cctype>
#include <filesystem>

#include <fmt/format.h>

#include "core/commands/pack_drafting.h"
#include "core/ground/file_stamp.h"
#include "core/ground/replacement.h"
#include "core/ground/text_layout.h"
#include "core/pack/pack_descriptor.h"
#include "core/page/page_command.h"
#include "core/page/page_form.h"
#include "core/page/page_frame.h"
#include "core/page/page_routes.h"
#include "core/work/list_mapping.h"
#include "core/work/own_line.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t rows_shown = 20, most_list_bytes = std::size_t{4} << 20;
constexpr const char* ending = ".list";

fs::path lists_folder(const Session& session) {
    return fs::path(own_pack_beside_shop(session)).parent_path() / "lists";
}

// Where the list of a name lies, and the pack that is drafted from it.
struct Place {
    std::string name, list, pack;
    bool confirmed() const { return fs::exists(fs::path(pack) / mapping_file); }
};

Place place_of(const Session& session, const std::string& name) {
    if (!is_pack_name(name) || !std::isalnum(static_cast<unsigned char>(name.front())))  // no "..", and nothing hidden
        throw Error(Exit::usage, fmt::format("name: {}: write small letters, digits and . _ -, at most 64", name));
    const auto base = (lists_folder(session) / name).string();
    return {name, base + ending, base};
}

std::string trimmed(std::string_view text) {
    const auto from = text.find_first_not_of(' ');
    return from == std::string_view::npos ? "" : std::string(text.substr(from, text.find_last_not_of(' ') - from + 1));
}

// The options of `pack draft` that fields say, in a form or in an address.
Args args_from(const Place& place, const Fields& fields) {
    Args args{{place.list, place.pack}, {}};
    for (const auto& [name, value] : fields) {
        if (trimmed(value).empty()) continue;
        if (name.rfind("column-", 0) == 0) args.options["column"].push_back(value);
        for (const char* option : {"seller", "decimal", "kind", "line"})
            if (name == option) args.options[option] = {trimmed(value)};
        if (name != "words") continue;
        for (std::size_t at = 0; at <= value.size();) {
            const auto end = std::min(value.find(';', at), value.size());
            if (const auto word = trimmed(std::string_view(value).substr(at, end - at)); !word.empty())
                args.options["word"].push_back(word);
            at = end + 1;
        }
    }
    return args;
}

Field column_field(const std::string& name, const std::string& is, std::size_t at, const Vocabularies& words) {
    Field field{fmt::format("column-{}", at), name, Field::Kind::choice, "", "", fmt::format("{}={}", name, is)};
    for (const auto& [key, what] : column_meanings()) field.options.emplace_back(fmt::format("{}={}", name, key), what);
    if (is.starts_with("pack "))
        field.options.emplace_back(field.value, fmt::format("how much one pack holds, in {}", is.substr(5)));
    for (const auto& [key, attribute] : words.attributes())
        field.options.emplace_back(fmt::format("{}={}", name, key), attribute.word.title);
    return field;
}

Form columns_form(const Visit& visit, const Place& place, const Drafting& drafting) {
    const auto& words = visit.session.catalog().vocabularies();
    const auto& mapping = drafting.mapping;
    Form form{"list-columns", "What each column is", "Show what comes of it", {}, {}, {}, "/lists/" + place.name};
    const auto& header = drafting.draft.header;
    for (std::size_t at = 0; at < header.size(); ++at)
        if (!header[at].empty()) form.fields.push_back(column_field(header[at], mapping.of(header[at]), at, words));
    form.fields.push_back({"seller", "Who sells", Field::Kind::words, "", "", mapping.seller});
    form.fields.push_back({"decimal",
                           "Sign before the cents",
                           Field::Kind::choice,
                           "",
                           "",
                           mapping.decimal,
                           {{"", "not said"}, {"comma", "comma: 12,50"}, {"point", "point: 12.50"}}});
    Field kind{"kind", "Item kind of every row", Field::Kind::choice, "", "", "", {{"", "each row says it"}}};
    for (const auto& [key, one] : words.item_kinds()) kind.options.emplace_back(key, one.word.title);
    form.fields.push_back(std::move(kind));
    form.more.push_back({"line", "Vehicle line of every row", Field::Kind::words, "", "Its key, as in the catalog."});
    form.more.push_back({"words", "Words of the list", Field::Kind::words, "",
                         "What they are, as: Oil sieve=pan-filter; 2.2=engine=2.2"});
    return form;
}

void write_texts(Html& html, const char* title, const std::vector<std::string>& texts) {
    if (texts.empty()) return;
    html.element("h2", title);
    const auto list = html.in("ul", {{"class", "told"}});
    for (const auto& text : texts) html.element("li", text);
}

void write_preview(Html& html, const Drafting& drafting) {
    const auto& draft = drafting.draft;
    html.element("p", fmt::format("{}; the header is in row {}.", drafting.list->form(), drafting.mapping.header));
    html.element("p", counts_text(draft) + ".");
    std::vector<std::string> open;
    for (const auto& one : drafting.open) open.push_back(one.what);
    write_texts(html, "Still to be said", open);
    write_texts(html, "What the first rows become", draft.shown);
    std::vector<std::string> reasons;
    for (const auto& one : draft.not_taken) {
        if (reasons.size() == rows_shown) break;
        reasons.push_back(fmt::format("row {}{}: {}", one.row, one.partly ? ", in part" : "", one.why));
    }
    write_texts(html, "Not taken", reasons);
    if (draft.not_taken.size() > rows_shown)
        html.element("p", fmt::format("And {} more; all are written down when it is taken over.",
                                      draft.not_taken.size() - rows_shown));
}

void show_sellers_list(Visit& visit, Page& page) {
    const auto place = place_of(visit.session, visit.words.at(0));
    page.title = fmt::format("List {}", place.name);
    page.trail = {{"/offers", "Offers and shelf"}, {"/lists", "Sellers' lists"}};
    if (!fs::exists(place.list))
        throw Error(Exit::no_input, fmt::format("{}: no list of this name was sent: send it on /lists", place.name));
    auto args = args_from(place, visit.request.query);
    args.options["preview"] = {};
    const auto drafting = drafting_of(visit.session, args);
    auto& html = page.main;
    write_preview(html, drafting);
    if (drafting.open.empty())
        write_form(html, visit,
                   {"list-confirm", "", "This is right: write the pack and the offers", {}, {}, visit.request.query});
    if (place.confirmed()) {
        write_form(html, visit, {"list-load", "", "Load the pack that was written", {}});
        write_form(html, visit, {"list-offers", "", "Put the offers that were written on file", {}});
    }
    write_form(html, visit, columns_form(visit, place, drafting));
}

void show_lists(Visit& visit, Page& page) {
    page.title = "Sellers' lists";
    page.trail = {{"/offers", "Offers and shelf"}};
    auto& html = page.main;
    html.element("p",
                 "A list of parts, as .csv, .xlsx or .ods, in whatever columns. What it says is taken over as the "
                 "seller's claim.",
                 {{"class", "hint"}});
    std::vector<std::string> names;
    std::error_code ignored;
    for (const auto& entry : fs::directory_iterator(lists_folder(visit.session), ignored))
        if (entry.path().extension() == ending) names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    for (const auto& name : names) {
        const auto line = html.in("p");
        html.link(address("/lists/" + name), name);
    }
    write_form(
        html, visit,
        {"list-send",
         "Send a list",
         "Send it",
         {{"name",
           "Its name here",
           Field::Kind::words,
           "",
           "Small letters, digits and . _ -; the next edition has the same.",
           "",
           {},
           true},
          {"list", "The file", Field::Kind::file, "", "At most 4 MB; for more: casebound pack draft", "", {}, true}}});
}

std::string act_send(Visit& visit) {
    const auto place = place_of(visit.session, visit.typed("name"));
    const auto& files = visit.request.files;
    const auto sent = std::find_if(files.begin(), files.end(), [](const auto& file) { return file.field == "list"; });
    if (sent == files.end()) throw Error(Exit::usage, "list: no file was sent: choose one");
    if (fs::file_size(sent->path) > most_list_bytes)
        throw Error(Exit::usage, "list: it has more than 4 MB: casebound pack draft takes a longer one");
    make_folder(lists_folder(visit.session));
    replace_file(place.list, read_whole(sent->path, most_list_bytes));
    return address("/lists/" + place.name);
}

std::string act_confirm(Visit& visit) {
    const auto place = place_of(visit.session, visit.words.at(0));
    auto args = args_from(place, visit.request.form);
    args.options["confirm"] = {};
    run_command(visit.session, "pack draft", args);
    return address("/lists/" + place.name);
}

// What a command said of its own faults, which it has not thrown.
void require_done(const Result& result) {
    if (result.exit != Exit::yes) throw Error(result.exit, result.output);
}

std::string act_load(Visit& visit) {
    const auto place = place_of(visit.session, visit.words.at(0));
    visit.session.close_catalog();
    require_done(run_command(visit.session, "pack load", Args{{place.pack}, {}}));
    return "";
}

std::string act_offers(Visit& visit) {
    const auto place = place_of(visit.session, visit.words.at(0));
    require_done(run_command(visit.session, "offer load", Args{{place.pack + ".offers.csv"}, {}}));
    return "/offers";
}

}  // namespace

std::vector<Route> supplier_routes() { return {{"/lists", "", show_lists}, {"/lists/*", "", show_sellers_list}}; }

std::vector<Action> supplier_actions() {
    return {
        {"list-send", act_send}, {"list-confirm", act_confirm}, {"list-load", act_load}, {"list-offers", act_offers}};
}

}  // namespace casebound
