#include "tests/chain/subject.h"

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "core/pack/pack.h"
#include "core/session/command.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "tests/chain/rows.h"
#include "tests/scratch_folder.h"

namespace chain {

namespace {

using namespace casebound;
using nlohmann::json;

std::string other_of(const World& world) { return world.key + "-o"; }
std::string seller_of(int seller) { return "s" + std::to_string(seller); }

Evidence evidence_from(const std::string& name) {
    const std::vector<std::string> names{"law",    "standard", "maker", "measured", "common_practice",
                                         "memory", "invented"};
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] == name) return static_cast<Evidence>(i);
    throw std::runtime_error("no evidence " + name);
}

void tell_all(Database& shop, const World& world) {
    ShopVehicles(shop).create(vehicle_of(world), world.key);
    for (const auto& one : world.told)
        ShopTold(shop).tell(vehicle_of(world), told_fact(attribute_name(one.attribute), text_of(one),
                                                         tell_evidence_from(known_name(one.known))));
}

void put_offers(ShopOffers offers, const World& world) {
    std::vector<SellerTerms> terms;
    for (std::size_t i = 0; i < world.sellers.size(); ++i) {
        const auto& one = world.sellers[i];
        terms.push_back({seller_of(static_cast<int>(i)), one.carriage,
                         one.free_from ? std::optional<std::int64_t>(one.free_from) : std::nullopt, one.minimum});
    }
    std::vector<OfferOnFile> found;
    for (const auto& one : world.offers) {
        OfferOnFile offer;
        offer.seller = seller_of(one.seller);
        offer.item = item_key(world, one.item);
        offer.pack_quantity = one.pack;
        offer.price_cents = one.cents;
        if (one.available >= 0) offer.available = one.available;
        found.push_back(offer);
    }
    offers.put(terms, found);
}

LineEvent event_of(const World& world, int item, const std::string& role, const char* what, double quantity) {
    LineEvent event;
    event.role = role;
    event.event = what;
    event.item = item_key(world, item);
    event.quantity = quantity;
    return event;
}

void put_records(Database& shop, const World& world) {
    ShopRecords records(shop);
    NewWork work;
    for (const auto& one : world.bought) {
        const std::string role = name_of(one.place);
        if (one.ordered) work.events.push_back(event_of(world, one.item, role, "ordered", one.ordered));
        if (one.received) work.events.push_back(event_of(world, one.item, role, "received", one.received));
        if (one.returned) work.events.push_back(event_of(world, one.item, role, "returned", one.returned));
        if (one.fitted) work.events.push_back(event_of(world, one.item, role, "fitted", one.fitted));
    }
    if (!work.events.empty()) records.add_to_job(vehicle_of(world), job_of(world), "", work);
    NewWork kept;
    for (const auto& one : world.shelf) {
        ShopOffers(shop).shelve({item_key(world, one.item), one.quantity, "counted", {}});
        if (!one.kept) continue;
        kept.events.push_back(event_of(world, one.item, "ring-left", "ordered", one.kept));
        kept.events.back().seller = "own shelf";
    }
    if (kept.events.empty()) return;
    ShopVehicles(shop).create(other_of(world), world.key);
    records.add_to_job(other_of(world), job_of(world), "", kept);
}

LineSays line_of(const json& line) {
    LineSays says;
    says.verdict = line["verdict"];
    says.blocks = line["blocks"];
    says.firmest = says.weakest = evidence_from(line["answer"]["weakest_evidence"]);
    for (const auto& option : line["options"]) {
        std::set<int> with;
        if (option.contains("goes_with"))
            for (const auto& one : option["goes_with"]) with.insert(number_in(one["group"]));
        for (const auto& item : option["items"]) {
            if (with.empty()) says.items.insert(number_in(item["item"]));
            else says.together.emplace(number_in(item["item"]), with);
        }
    }
    return says;
}

double pieces_in(const World& world, const std::string& seller, int item, double packs) {
    for (const auto& offer : world.offers)
        if (seller_of(offer.seller) == seller && offer.item == item) return packs * offer.pack;
    return packs;
}

std::vector<OrderLine> lines_of(const World& world, const json& order) {
    std::vector<OrderLine> lines;
    for (const auto& seller : order["sellers"]) {
        if (seller["own_shelf"]) continue;
        for (const auto& line : seller["lines"]) {
            const int item = number_in(line["item"]);
            lines.push_back({item, pieces_in(world, seller["seller"], item, line["packs"])});
        }
    }
    return lines;
}

void take_list(Asked& asked, const json& list) {
    asked.says.ready = list["ready"];
    asked.says.right_only_if = !list["hearsay"].empty();
    asked.says.weakest = evidence_from(list["weakest_evidence"]);
    for (const auto& line : list["lines"]) {
        auto says = line_of(line);
        for (const auto& swap : line["stand_ins"])
            if (swap["verdict"] == "yes" && swap["also_fit"].empty()) says.stand_ins.insert(number_in(swap["offered"]));
        asked.says.lines[place_of(line["role"])] = says;
    }
}

void take_buy(Asked& asked, const World& world, const json& buy, Exit exit) {
    auto& says = asked.says;
    const auto& order = buy["order"];
    says.buy = !order.is_null()       ? "order"
               : exit == Exit::yes    ? "nothing"
               : buy["unmet"].empty() ? "refused"
                                      : "uncovered";
    says.right_only_if_bought = !buy["hearsay"].empty();
    if (!order.is_null()) {
        says.cents = order["total_cents"];
        says.order = lines_of(world, order);
        if (says.order.empty()) says.buy = "nothing";
    }
    if (buy["unsure"].is_null()) return;
    const auto& known = buy["unsure"]["find_out_first"];
    says.known_cents_said = true;
    if (known["possible"]) says.known_cents = known["expected_cents"].get<long>();
    const auto& plan = buy["unsure"]["right_in_every"]["order"];
    asked.unsure.order = !plan.is_null();
    if (asked.unsure.order) asked.unsure.right_in_every = lines_of(world, plan);
}

}  // namespace

struct Subject::Inside {
    explicit Inside(const std::vector<World>& given) : worlds(given) {
        Session::Options options;
        options.catalog = folder.file("catalog.sqlite");
        options.shop = folder.file("shop.sqlite");
        static const ScratchFolder kept;  // a plugin is looked at once in this process
        options.probed = kept.file("probed");
        options.plugin_folders = {CASEBOUND_BINARY_DIR "/chain/plugins"};
        options.json = true;
        session = std::make_unique<Session>(options);
        open_shop(folder.file("empty.sqlite"));
        load();
    }

    void load() {
        const auto pack = folder.file("worlds");
        new_pack(pack, "worlds", session->plugins());
        std::map<std::string, std::string> files{{"sources", source_rows()}};
        for (const auto& world : worlds)
            for (auto& [file, rows] : pack_rows(world)) files[file] += rows;
        for (const auto& [file, rows] : files) std::ofstream(pack + "/" + file + ".csv", std::ios::app) << rows;
        const auto report = load_pack(pack, session->options().catalog, session->plugins());
        std::string faults;
        for (const auto& fault : report.faults) faults += fault.text() + "\n";
        if (!faults.empty()) throw std::runtime_error(faults.substr(0, 4000));
    }

    // A fresh shop in the place of the last one, as after a copy was put back.
    void open_shop_of(const World& world) {
        std::filesystem::copy_file(folder.file("empty.sqlite"), folder.file("next.sqlite"),
                                   std::filesystem::copy_options::overwrite_existing);
        std::filesystem::rename(folder.file("next.sqlite"), folder.file("shop.sqlite"));
        session->refresh();
        auto& shop = session->shop();
        Transaction writing(shop);
        tell_all(shop, world);
        put_offers(ShopOffers(shop), world);
        put_records(shop, world);
        writing.commit();
    }

    Result run(const std::string& name, Args args) {
        static const auto table = commands();
        for (const auto& command : table)
            if (command.name == name) return command.run(*session, args);
        throw std::runtime_error("no command " + name);
    }

    ScratchFolder folder;
    const std::vector<World>& worlds;
    std::unique_ptr<Session> session;
};

Subject::Subject(const std::vector<World>& worlds) : inside_(std::make_unique<Inside>(worlds)) {}
Subject::~Subject() = default;

Asked Subject::ask(std::size_t at, bool everywhere) {
    const auto& world = inside_->worlds[at];
    Asked asked;
    try {
        inside_->open_shop_of(world);
        const Args of_job{{vehicle_of(world), job_of(world)}, {}};
        take_list(asked, json::parse(inside_->run("list", of_job).output)["list"]);
        const auto bought = inside_->run("buy", of_job);
        take_buy(asked, world, json::parse(bought.output)["buy"], bought.exit);
        for (const auto& [wanted, offered] : world.swaps) {
            const auto said = inside_->run(
                "swap", {{group_key(world, wanted), group_key(world, offered)}, {{"for", {vehicle_of(world)}}}});
            const auto answer = json::parse(said.output)["answer"];
            asked.says.swaps[{wanted, offered}] = answer["also_fit"].empty() ? answer["verdict"]
                                                                             : json("with another part");
        }
        if (everywhere)
            asked.elsewhere = ask_elsewhere(world, *inside_->session, [&](const std::string& name, Args args) {
                return inside_->run(name, std::move(args));
            });
    } catch (const std::exception& failure) { asked.fault = failure.what(); }
    return asked;
}

std::string Subject::told_in_text(std::size_t at) {
    const auto& world = inside_->worlds[at];
    inside_->open_shop_of(world);
    auto options = inside_->session->options();
    options.json = false;
    Session in_words(options);
    std::string text;
    for (const char* name : {"list", "buy"})
        for (const auto& command : commands())
            if (command.name == name) text += command.run(in_words, {{vehicle_of(world), job_of(world)}, {}}).output;
    return text;
}

}  // namespace chain
