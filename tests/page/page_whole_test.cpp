// What holds on every page, whichever it is: well-formed, light, labelled, without script, and dead ends nowhere.
#include <catch2/catch.hpp>

#include <map>

#include "core/page/page_routes.h"
#include "core/say/list_words.h"
#include "core/session/inquiry_session.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

constexpr std::size_t heaviest = 200'000;  // bytes of one page

// "" when the page keeps the rules that hold everywhere.
std::string broken_rule(const std::string& body) {
    const Document page(body);
    if (!page.fault.empty()) return page.fault;
    if (body.size() > heaviest) return "too heavy";
    if (page.all("h1").size() != 1) return "not one h1";
    if (page.all("title").size() != 1 || page.all("title")[0]->text.empty()) return "no title";
    if (page.all("html")[0]->attribute("lang") != "en") return "no language";
    if (page.all("main").size() != 1 || page.all("header").size() != 1 || page.all("footer").size() != 1)
        return "a landmark is missing";
    std::set<std::string> ids;
    for (const auto& element : page.elements) {
        if (element.has("id") && !ids.insert(element.attribute("id")).second)
            return "an id twice: " + element.attribute("id");
        for (const auto& [name, value] : element.attributes) {
            if (name == "style" || name.rfind("on", 0) == 0) return "inline " + name;
            if ((name == "href" || name == "src" || name == "action") && value.rfind("/", 0) != 0 &&
                value.rfind("#", 0) != 0)
                return "leads away: " + value;
            if ((name == "href" || name == "action") && value.rfind("//", 0) == 0) return "leads away: " + value;
        }
        for (const auto* refused : {"script", "style", "img", "iframe", "object", "base"})
            if (element.name == refused) return element.name + " on a page";
    }
    return "";
}

std::string unlabelled_field(const Document& page) {
    std::set<std::string> labelled;
    for (const auto* label : page.all("label")) labelled.insert(label->attribute("for"));
    for (const auto& element : page.elements) {
        if (element.name != "input" && element.name != "select") continue;
        if (element.attribute("type") == "hidden" || page.inside(element, "label") ||
            labelled.contains(element.attribute("id")))
            continue;
        return element.attribute("name");
    }
    return "";
}

// Of a form whose button is in sight: a browser refuses to send without it, and cannot show where it is.
std::string needed_and_folded_away(const Document& page) {
    for (const auto& element : page.elements) {
        if (!element.has("required")) continue;
        bool in_form = false;
        for (const auto i : element.within) {
            in_form |= page.elements[i].name == "form";
            if (in_form && page.elements[i].name == "details") return element.attribute("name");
        }
    }
    return "";
}

// Descriptions and headings that a field or section names are there.
std::string dangling_reference(const Document& page) {
    for (const auto& element : page.elements)
        for (const char* name : {"aria-describedby", "aria-labelledby", "for"}) {
            std::string rest = element.attribute(name);
            while (!rest.empty()) {
                const auto end = rest.find(' ');
                if (!page.by_id(rest.substr(0, end))) return rest;
                rest = end == std::string::npos ? "" : rest.substr(end + 1);
            }
        }
    return "";
}

}  // namespace

TEST_CASE(
    "every page that links lead to is there, well-formed, light, labelled and without script, and asking writes "
    "nothing") {
    PageShop shop;
    shop.add_bookvan();
    const auto shop_bytes = ScratchFolder::read(shop.shop), catalog_bytes = ScratchFolder::read(shop.catalog);
    const auto pages = crawled(shop,
                               {"/", "/vehicle/bookvan/list?job=pan-service", "/vehicle/bookvan/order?job=pan-service",
                                "/vehicle/bookvan/why"},
                               500);
    CHECK(pages.size() > 150);
    for (const auto& [address, reply] : pages) {
        INFO(address);
        CHECK(reply.status == 200);
        CHECK(broken_rule(reply.body) == "");
        const Document page(reply.body);
        CHECK(unlabelled_field(page) == "");
        CHECK(needed_and_folded_away(page) == "");
        CHECK(dangling_reference(page) == "");
    }
    CHECK(ScratchFolder::read(shop.shop) == shop_bytes);
    CHECK(ScratchFolder::read(shop.catalog) == catalog_bytes);
}

TEST_CASE("the navigation lists the pages that are dispatched, from the one table") {
    PageShop shop;
    const Document page(shop.get("/").body);
    std::set<std::string> listed;
    const auto* pages = page.by_id("pages");
    REQUIRE(pages);
    for (const auto* link : page.all("a")) listed.insert(link->attribute("href"));
    for (const auto& route : page_routes()) {
        INFO(route.path);
        if (!route.title.empty()) CHECK(listed.contains(route.path));
    }
    CHECK(shop.get("/style.css").type == "text/css; charset=utf-8");
    CHECK(shop.get("/icon.svg").type == "image/svg+xml");
    CHECK(shop.get("/style.css").body.find("url(") == std::string::npos);
}

TEST_CASE("pages that rest on the demo say that it is invented") {
    PageShop shop;
    shop.add_bookvan();
    for (const char* address :
         {"/", "/vehicle/bookvan", "/vehicle/bookvan/list?job=pan-service", "/vehicle/bookvan/fits",
          "/vehicle/bookvan/why?item=LD-2161", "/vehicle/bookvan/decide", "/vehicle/bookvan/order?job=pan-service",
          "/vehicle/bookvan/cause", "/vehicle/bookvan/record", "/catalog", "/catalog/line?key=quernmoor-packet",
          "/catalog/group?key=QF-4", "/catalog/item?key=LD-2161", "/swap?wanted=QF-4&offered=QF-3",
          "/compute/transmission_fluids/viscosity?go=1&wanted=QF-4&offered=QF-LV"}) {
        INFO(address);
        CHECK(shop.get(address).body.find("<p class=\"invented\">invented demo data</p>") != std::string::npos);
    }
    CHECK(shop.get("/compute/transmission_fluids/viscosity-index?go=1&kv40=34&kv100=7.1")
              .body.find("invented demo data") == std::string::npos);
}

TEST_CASE("one who may only read is shown no form that writes, and is refused every change") {
    PageShop shop;
    shop.add_bookvan();
    shop.may_edit = false;
    const auto before = ScratchFolder::read(shop.shop);
    for (const auto& [address, reply] : crawled(shop, {"/", "/vehicle/bookvan/list?job=pan-service"}, 500)) {
        INFO(address);
        const Document page(reply.body);
        for (const auto* form : page.all("form")) CHECK(form->attribute("method") == "get");
    }
    for (const auto& action : page_actions()) {
        const auto reply = shop.post("/vehicle/bookvan", {{"form", action.form},
                                                          {"attribute", "year"},
                                                          {"value", "2007"},
                                                          {"name", "x"},
                                                          {"line", "quernmoor-packet"}});
        INFO(action.form);
        CHECK(reply.status == 403);
        CHECK(broken_rule(reply.body) == "");
    }
    CHECK(ScratchFolder::read(shop.shop) == before);
}

TEST_CASE("every form that writes carries the token and the action it is for") {
    PageShop shop;
    shop.add_bookvan();
    std::set<std::string> known, met;
    for (const auto& action : page_actions()) known.insert(action.form);
    for (const auto& [address, reply] : crawled(shop, {"/"}, 60)) {
        const Document page(reply.body);
        for (const auto* input : page.all("input")) {
            if (input->attribute("name") == "token") CHECK(input->attribute("value") == "the-token");
            if (input->attribute("name") != "form") continue;
            const auto form = input->attribute("value");
            met.insert(form.substr(0, form.find('/')));
        }
    }
    for (const auto& form : met) CHECK(known.contains(form));
    CHECK(met.size() >= 6);
}

TEST_CASE("every inquiry of every loaded domain has a form with its inputs, and answers as it does elsewhere") {
    PageShop shop;
    shop.add_bookvan();
    std::size_t answered = 0, asked = 0;
    for (const auto& domain : shop.session->plugins().domains) {
        const auto inquiries = domain.domain.inquiries();
        for (const auto& inquiry : inquiries.answer.value()) {
            const auto at = "/compute/" + domain.name + "/" + inquiry.name;
            INFO(at);
            const Document form(shop.get(at).body);
            std::set<std::string> names;
            for (const auto& element : form.elements)
                if (element.name == "input" || element.name == "select") names.insert(element.attribute("name"));
            for (const auto& input : inquiry.inputs) CHECK(names.contains(input.name));
            const auto situation = shop.session->situation("bookvan");
            ++asked;
            const auto reply = shop.get(at + "?go=1&for=bookvan");
            const Document page(reply.body);
            try {
                const auto run = run_inquiry_in(*shop.session, domain.domain, inquiry, {}, situation.get());
                ++answered;
                CHECK(reply.status == 200);
                const auto read = in_words(run.answer, *shop.session);
                CHECK(page.all("main")[0]->text.find(read.headline) != std::string::npos);
                for (const auto& line : read.lines)
                    CHECK(page.all("main")[0]->text.find(line.label) != std::string::npos);
                CHECK(page.all("svg").size() >= run.answer.pictures.size() + run.answer.series.size());
            } catch (const Error& error) {
                CHECK(reply.status == 422);
                // Beside the field that it names, the name is not said again.
                for (const auto& fault : error.all())
                    CHECK((page.all("main")[0]->text.find(fault) != std::string::npos ||
                           page.all("main")[0]->text.find(fault.substr(fault.find(": ") + 2)) != std::string::npos));
            }
        }
    }
    CHECK(asked >= 40);
    CHECK(answered >= 8);
}

TEST_CASE("what was measured stands as a point between its limits, and each solenoid where it is recorded to sit") {
    PageShop shop;
    const auto coil = shop.get("/compute/solenoids/coil?go=1&ohm=31&temp=60&low=23&high=29");
    REQUIRE(coil.status == 200);
    CHECK(Document(coil.body).all("circle").size() >= 1);
    CHECK(coil.body.find("class=\"band\"") != std::string::npos);
    CHECK(coil.body.find("measured: 31 ohm at 60 \u00B0C") != std::string::npos);
    CHECK(shop.get("/compute/solenoids/coil?go=1&ohm=31&temp=60").body.find("class=\"band\"") == std::string::npos);
    const auto body = shop.get("/compute/solenoids/position?go=1&gearbox=tarn-4&element=B");
    CHECK(body.body.find("shift solenoid B: grey plug") != std::string::npos);
    CHECK(body.body.find("class=\"shape loud\"") != std::string::npos);
}

TEST_CASE("what is aimed at is drawn beside the curve") {
    PageShop shop;
    const std::string with = "/compute/transmission_fluids/old-fluid?go=1&total=9&drained=4";
    CHECK(shop.get(with + "&target=10").body.find("at most wanted") != std::string::npos);
    CHECK(shop.get(with).body.find("at most wanted") == std::string::npos);
}
