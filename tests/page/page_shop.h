// A shop of its own for one test: the shipped packs, loaded once for all tests, and an empty yard; and requests to it.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/pack/pack.h"
#include "core/page/page.h"
#include "tests/environment.h"
#include "tests/page/page_document.h"
#include "tests/scratch_folder.h"

namespace casebound::tests {

inline const std::string& loaded_catalog() {
    static const ScratchFolder scratch;
    static const std::string path = [] {
        const auto plugins = load_plugins({CASEBOUND_BINARY_DIR "/plugins"}, scratch.file("probed"));
        std::vector<std::string> folders;
        for (const auto& entry : std::filesystem::directory_iterator(CASEBOUND_SOURCE_DIR "/seed-data"))
            if (entry.is_directory() && entry.path().filename() != "demo-fleet")
                folders.push_back(entry.path().string());
        folders.emplace_back(CASEBOUND_SOURCE_DIR "/seed-data/demo-fleet");
        for (const auto& folder : folders)
            if (!load_pack(folder, scratch.file("catalog.sqlite"), plugins).faults.empty())
                throw std::runtime_error(folder + " does not load");
        return scratch.file("catalog.sqlite");
    }();
    return path;
}

struct PageShop {
    ScratchFolder folder;
    SetVariable day{"CASEBOUND_TODAY", "2026-11-25"};
    std::string catalog = folder.file("catalog.sqlite"), shop = folder.file("shop.sqlite");
    std::unique_ptr<Session> session;
    bool may_edit = true;

    PageShop() {
        std::filesystem::copy_file(loaded_catalog(), catalog);
        session = std::make_unique<Session>(
            Session::Options{catalog, shop, folder.file("probed"), {CASEBOUND_BINARY_DIR "/plugins"}});
    }

    // `address` as it stands in a link: "/a/b?c=d%20e".
    PageRequest request(const std::string& address) const {
        PageRequest made;
        const auto whole = address.substr(0, address.find('#'));
        const auto mark = whole.find('?');
        made.path = decoded(whole.substr(0, mark));
        std::string rest = mark == std::string::npos ? "" : whole.substr(mark + 1);
        while (!rest.empty()) {
            const auto end = rest.find('&');
            const auto one = rest.substr(0, end);
            const auto at = one.find('=');
            made.query.emplace_back(decoded(one.substr(0, at)),
                                    at == std::string::npos ? "" : decoded(one.substr(at + 1)));
            rest = end == std::string::npos ? "" : rest.substr(end + 1);
        }
        made.may_edit = may_edit;
        made.form_token = "the-token";
        return made;
    }
    PageReply get(const std::string& address) const { return page_reply(*session, request(address)); }
    PageReply post(const std::string& address, Fields form) const {
        auto made = request(address);
        made.post = true;
        made.form = std::move(form);
        return page_reply(*session, made);
    }
    // The demo vehicle of most tests: which pan it has is not known yet.
    void add_bookvan() const {
        post("/", {{"form", "new-vehicle"}, {"name", "bookvan"}, {"line", "quernmoor-packet"}});
        for (const auto& [attribute, value] : Fields{{"year", "2007"}, {"engine", "2.6"}, {"cooler", "no"}})
            post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", attribute}, {"value", value}});
    }

    static std::string decoded(const std::string& text) {
        std::string out;
        for (std::size_t i = 0; i < text.size(); ++i) {
            if (text[i] != '%') out += text[i] == '+' ? ' ' : text[i];
            else {
                out += static_cast<char>(std::stoi(text.substr(i + 1, 2), nullptr, 16));
                i += 2;
            }
        }
        return out;
    }
};

// Every page that links lead to from `start`, by address.
inline std::vector<std::pair<std::string, PageReply>> crawled(const PageShop& shop,
                                                              const std::vector<std::string>& start, std::size_t most) {
    std::vector<std::pair<std::string, PageReply>> pages;
    std::vector<std::string> waiting = start;
    std::set<std::string> seen(start.begin(), start.end());
    while (!waiting.empty() && pages.size() < most) {
        const auto address = waiting.front();
        waiting.erase(waiting.begin());
        pages.emplace_back(address, shop.get(address));
        const Document document(pages.back().second.body);
        for (const auto* link : document.all("a")) {
            const auto to = link->attribute("href").substr(0, link->attribute("href").find('#'));
            if (!to.empty() && seen.insert(to).second) waiting.push_back(to);
        }
    }
    return pages;
}

inline std::string main_text(const PageReply& reply) { return Document(reply.body).all("main").at(0)->text; }

inline bool says(const PageReply& reply, const std::string& text) {
    return main_text(reply).find(text) != std::string::npos;
}

// What stands in a field, by its id.
inline std::string typed_value(const PageReply& reply, const std::string& id) {
    const Document page(reply.body);
    const auto* field = page.by_id(id);
    if (!field) return "no such field";
    if (field->name == "input") return field->attribute("value");
    for (const auto& element : page.elements)
        if (element.name == "option" && element.has("selected") && &page.elements[element.within.back()] == field)
            return element.attribute("value");
    return "";
}

}  // namespace casebound::tests
