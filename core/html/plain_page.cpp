#include "core/html/plain_page.h"

#include <utility>

namespace casebound {

std::string plain_page(const std::string& title, const std::string& text, const PlainLink& link) {
    Html more;
    if (!link.to.empty()) {
        const auto paragraph = more.in("p");
        more.link(link.to, link.text);
    }
    return plain_page(title, text, std::move(more));
}

std::string plain_page(const std::string& title, const std::string& text, Html&& more) {
    Html html;
    const auto page = html.in("html", {{"lang", "en"}});
    {
        const auto head = html.in("head");
        html.empty("meta", {{"charset", "utf-8"}});
        html.empty("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
        html.element("title", title + ", casebound");
    }
    const auto body = html.in("body");
    const auto main = html.in("main");
    html.element("h1", title);
    html.element("p", text);
    html.append(std::move(more));
    return "<!DOCTYPE html>\n" + html.take() + "\n";
}

}  // namespace casebound
