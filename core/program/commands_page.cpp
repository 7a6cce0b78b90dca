// `page`: the whole tool for a browser on this machine and, if asked, for a phone in the yard.
#include <charconv>

#include <fmt/format.h>

#include "core/ground/colour.h"
#include "core/ground/outlet.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/serve/server.h"
#include "core/session/command.h"
#include "core/shop/shop_photos.h"
#include "core/work/own_line.h"

namespace casebound {

namespace {

constexpr std::uint16_t usual_port = 8417;

std::uint16_t port_of(const Args& args) {
    if (!args.has("port")) return usual_port;
    const auto text = args.option("port");
    std::uint16_t port = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), port);
    if (error != std::errc{} || end != text.data() + text.size())
        throw Error(Exit::usage, fmt::format("{}: not a port: 1 to 65535, or 0 for a free one", text));
    return port;
}

bool is_loopback(const std::string& address) { return address == "::1" || address.rfind("127.", 0) == 0; }

std::string addresses_json(const std::vector<std::string>& addresses) {
    auto json = document("page");
    json["addresses"] = addresses;
    return json.dump(-1, ' ', false, Json::error_handler_t::replace) + "\n";  // one line each, as they come
}

// Where to go, in words; the address stands alone on its line.
std::string addresses_text(const std::vector<std::string>& addresses, bool first, const std::string& home) {
    if (!first)
        return fmt::format(
            "A device was let in; {}devices on this machine lists them and puts them out. For one more:\n{}\n", home,
            addresses.back());
    std::string text = fmt::format("Open {}\n", addresses.front());
    if (addresses.size() > 1)
        text += fmt::format("On one phone in the yard, once:\n{}\n", addresses.back()) +
                wrapped(
                    "Nothing on the way is encrypted: whoever shares the network could read it. Only on a network of "
                    "your own.");
    return text + "Ctrl-C ends it.\n";
}

Result run_page(Session& session, const Args& args) {
    load_shipped_packs_once(session);
    ServerOptions options;
    options.port = port_of(args);
    options.listen = args.option("listen");
    options.lan_may_edit = args.has("allow-edit");
    options.upload_folder = photos_folder(session.options().shop);
    if (!options.listen.empty() && !is_loopback(options.listen) && !args.has("allow-lan"))
        throw Error(Exit::usage,
                    fmt::format("page: {}: others on the network could reach it: add --allow-lan if that is meant",
                                options.listen));
    if ((args.has("allow-lan") || args.has("allow-edit")) && options.listen.empty())
        throw Error(Exit::usage,
                    "page: --allow-lan and --allow-edit are about --listen ADDRESS: name the address of this machine, "
                    "as 192.168.0.7 (`hostname -I` lists them)");
    use_colours(false);  // what the page shows is no terminal's
    use_page_width(usual_width);
    bool first = true;
    std::string home;
    options.say = [&](const std::vector<std::string>& addresses) {
        if (first) home = addresses.front();
        print_result(session.json() ? addresses_json(addresses) : addresses_text(addresses, first, home));
        first = false;
    };
    constexpr int wait_ms = 250;  // one request at a time is answered: a locked shop must not hold up all the others
    session.wait_at_most(wait_ms);
    serve(options, [&](const PageRequest& request) { return page_reply(session, request); });
    return {Exit::yes, ""};
}

}  // namespace

std::vector<Command> page_commands() {
    return {{"page",
             "",
             "the whole tool in a browser on this machine, at http://127.0.0.1:8417/",
             0,
             0,
             {{"port", "NUMBER", "another port; 0 takes a free one"},
              {"listen", "ADDRESS", "also at this address of the machine, for a phone in the yard; needs --allow-lan"},
              {"allow-lan", "",
               "others on the network may reach --listen: one device for each printed token, to look only"},
              {"allow-edit", "", "what was let in by a token may also write"}},
             run_page,
             "casebound page"}};
}

}  // namespace casebound
