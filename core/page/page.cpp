#include "core/page/page.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/outlet.h"
#include "core/page/page_frame.h"
#include "core/page/page_kept.h"
#include "core/page/page_once.h"
#include "core/page/page_photos.h"
#include "core/page/page_routes.h"
#include "core/reason/vocabulary.h"
#include "core/sheets/sheet_html.h"

namespace casebound {

namespace {

std::vector<std::string> path_words(std::string_view path) {
    std::vector<std::string> words;
    for (std::size_t from = 1; from <= path.size();) {
        const auto slash = std::min(path.find('/', from), path.size());
        if (slash > from || slash < path.size()) words.emplace_back(path.substr(from, slash - from));
        from = slash + 1;
    }
    return words;
}

// The words that stand for `*`; nothing when the path is another.
std::optional<std::vector<std::string>> matched(const Route& route, std::string_view path) {
    const auto pattern = path_words(route.path), words = path_words(path);
    if (path.empty() || path[0] != '/' || pattern.size() != words.size()) return std::nullopt;
    std::vector<std::string> stars;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (pattern[i] == "*") stars.push_back(words[i]);
        else if (pattern[i] != words[i]) return std::nullopt;
    }
    return stars;
}

std::vector<NavigationEntry> navigation(const std::vector<Route>& routes) {
    std::vector<NavigationEntry> entries;
    for (const auto& route : routes)
        if (!route.title.empty()) entries.push_back({route.path, route.title});
    return entries;
}

struct Said {
    int status;
    std::string title;
};

Said said_of(Exit exit) {
    switch (exit) {
        case Exit::cannot_tell:
        case Exit::usage:
        case Exit::bad_data: return {422, "Not understood"};
        case Exit::no_input: return {404, "Not found"};
        case Exit::busy: return {503, "Busy"};
        default: return {500, "Could not be done"};
    }
}

// What the person can put right in the form that was sent; it comes back as it was typed.
bool goes_back_to_form(Exit exit) {
    return exit == Exit::cannot_tell || exit == Exit::usage || exit == Exit::bad_data || exit == Exit::no_input;
}

PageReply reply_of(int status, Page&& page, const Visit& visit, const std::vector<Route>& routes) {
    return {status, "text/html; charset=utf-8", framed(std::move(page), visit, navigation(routes)), "", {}};
}

PageReply say(int status, const std::string& title, const std::vector<std::string>& lines, const Visit& visit,
              const std::vector<Route>& routes) {
    Page page;
    page.title = title;
    for (const auto& line : lines) page.main.element("p", line, {{"class", "said"}});
    const auto back = page.main.in("p");
    page.main.link("/", "To the vehicles", {{"class", "button"}});
    return reply_of(status, std::move(page), visit, routes);
}

PageReply say(const Error& error, const Visit& visit, const std::vector<Route>& routes) {
    const auto said = said_of(error.exit());
    return say(said.status, said.title, error.all(), visit, routes);
}

PageReply written(const Route& route, Visit& visit, const std::vector<Route>& routes, bool& may_be_kept) {
    Page page;
    route.show(visit, page);
    may_be_kept = page.kept && !visit.refused;
    return reply_of(visit.refused ? 422 : 200, std::move(page), visit, routes);
}

// What is written to while the page is, is another moment: it is then not kept.
PageReply shown(const Route& route, Visit& visit, const std::vector<Route>& routes) {
    if (route.print) return {200, "text/html; charset=utf-8", route.print(visit), ""};
    auto key = visit.refused || visit.request.post ? std::nullopt : kept_under(visit);
    if (key)
        if (auto body = kept_pages().find(*key)) return {200, "text/html; charset=utf-8", std::move(*body), "", {}};
    const FormIdsMade made;
    bool may_be_kept = false;
    auto reply = written(route, visit, routes, may_be_kept);
    if (key && may_be_kept && kept_under(visit) == key) kept_pages().keep(std::move(*key), reply.body, made.ids());
    return reply;
}

// What was sent lies under a name that nobody has seen.
std::vector<std::string> as_the_browser_calls_it(const PageRequest& request, std::vector<std::string> faults) {
    for (auto& fault : faults)
        for (const auto& file : request.files)
            if (const auto at = fault.find(file.path); at != std::string::npos)
                fault.replace(at, file.path.size(), file.name);
    return faults;
}

PageReply acted(const Route& route, Visit& visit, const std::vector<Route>& routes) {
    if (!visit.request.may_edit)
        return say(403, "Only for reading", {"This page was opened for reading: nothing can be changed from here."},
                   visit, routes);
    if (const auto before = forms_done().answer(visit.request)) return *before;
    const auto form = visit.typed("form");
    const auto actions = page_actions();
    const auto found = std::find_if(actions.begin(), actions.end(),
                                    [&](const Action& one) { return one.form == form.substr(0, form.find('/')); });
    if (found == actions.end())
        return say(
            422, "Not understood",
            {fmt::format("form: \"{}\" is nothing that can be done here: go back and use a form of the page", form)},
            visit, routes);
    const auto written_before = times_written();
    auto& reply = forms_done().begin(visit.request, {303, "text/html; charset=utf-8", "", visit.url()});
    try {
        if (auto on = found->act(visit); !on.empty()) reply.location = std::move(on);
        return reply;
    } catch (const Error& error) {
        forms_done().take_back();
        if (!goes_back_to_form(error.exit())) throw;
        visit.refused = Refusal{form, as_the_browser_calls_it(visit.request, error.all())};
        return shown(route, visit, routes);
    } catch (...) {
        if (times_written() == written_before) forms_done().take_back();
        throw;
    }
}

PageReply not_found(const Visit& visit, const std::vector<Route>& routes) {
    std::vector<std::string> paths;
    for (const auto& route : routes)
        if (route.path.find('*') == std::string::npos) paths.push_back(route.path);
    const auto near = nearest(visit.request.path, paths);
    return say(404, "Not found",
               {fmt::format("{}: there is no such page{}", visit.request.path,
                            near.empty() ? "" : fmt::format(": did you mean {}?", near))},
               visit, routes);
}

// However a request ends.
class AtRest {
public:
    explicit AtRest(Session& session) : session_(session) {}
    ~AtRest() { session_.rest(); }
    AtRest(const AtRest&) = delete;
    AtRest& operator=(const AtRest&) = delete;

private:
    Session& session_;
};

// By the name of its file, which is its hash: no other file of this machine has such a name.
std::optional<PageReply> photo_asked(const Visit& visit) {
    if (visit.request.post || !visit.request.path.starts_with(photo_address)) return std::nullopt;
    const auto photo = ShopPhotos(visit.session.shop()).named(visit.request.path.substr(photo_address.size()));
    if (photo.number == 0) return std::nullopt;
    return PageReply{200, std::string(media_type(photo.type)), {}, {}, photo.path};
}

PageReply dispatched(Visit& visit, const std::vector<Route>& routes) {
    if (auto photo = photo_asked(visit)) return *photo;
    for (const auto& route : routes)
        if (auto words = matched(route, visit.request.path)) {
            visit.words = std::move(*words);
            return visit.request.post ? acted(route, visit, routes) : shown(route, visit, routes);
        }
    return not_found(visit, routes);
}

}  // namespace

PageReply page_reply(Session& session, const PageRequest& request) {
    const AtRest between_requests(session);
    if (request.path == "/style.css" && !request.post) return {200, "text/css; charset=utf-8", page_css, ""};
    if (request.path == "/sheet.css" && !request.post) return {200, "text/css; charset=utf-8", sheet_css, ""};
    if (request.path == "/icon.svg" && !request.post) return {200, "image/svg+xml", page_icon(), ""};
    static const auto routes = page_routes();
    Visit visit{session, request};
    try {
        session.refresh();
        return dispatched(visit, routes);
    } catch (const Error& error) {
        visit.refused.reset();
        return say(error, visit, routes);
    } catch (const std::bad_alloc&) {
        session.close_catalog();
        visit.refused.reset();
        return say(
            503, "Out of memory",
            {request.post ? "What was sent may be written down already: look at the vehicle before you send it again."
                          : "Nothing was changed. Close other programs on that machine, or ask for less at once."},
            visit, routes);
    } catch (const std::exception& error) {
        session.close_catalog();  // whatever was half read is read anew
        visit.refused.reset();
        return say(500, "This should not happen",
                   {fmt::format("{}: please report it with the address of this page", error.what())}, visit, routes);
    }
}

}  // namespace casebound
