#include "core/serve/devices.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/secret.h"
#include "core/ground/utf8.h"
#include "core/html/html.h"
#include "core/html/plain_page.h"

namespace casebound {

namespace {

constexpr std::size_t shown_of_name = 120;

void button(Html& html, std::string_view to, const HtmlAttributes& hidden, std::string_view words) {
    const auto form = html.in("form", {{"method", "post"}, {"action", std::string(to)}});
    for (const auto& [name, value] : hidden)
        html.empty("input", {{"type", "hidden"}, {"name", std::string(name)}, {"value", value}});
    html.element("button", words);
}

}  // namespace

const Device& Devices::let_in(std::string_view name) {
    const auto now = time_stamp();
    return all_.emplace_back(Device{++last_, new_secret(), shown(name, shown_of_name), now, now});
}

bool Devices::knows(std::string_view cookie) {
    bool found = false;
    for (auto& one : all_)
        if (same_secret(cookie, one.cookie)) {
            found = true;
            one.seen = time_stamp();
        }
    return found;
}

bool Devices::put_out(int number) {
    return std::erase_if(all_, [&](const Device& one) { return one.number == number; }) > 0;
}

std::string devices_page(const Devices& devices, const std::string& entry, const std::string& form_token) {
    Html html;
    if (!entry.empty()) html.element("p", "On one more device, once: " + entry);
    if (devices.all().empty()) html.element("p", "No device is let in.");
    for (const auto& one : devices.all()) {
        html.element(
            "p", fmt::format("Device {}: {}. Let in {}, last seen {}.", one.number, one.name, one.let_in, one.seen));
        button(html, devices_path, {{"token", form_token}, {"out", fmt::format("{}", one.number)}},
               fmt::format("Put device {} out", one.number));
    }
    html.link("/", "To the vehicles");
    return plain_page("Devices that were let in", "Each has a key of its own, until casebound page ends.",
                      std::move(html));
}

std::string entry_page(const std::string& entry_token) {
    Html html;
    button(html, entry_path, {{"entry", entry_token}}, "Let this device in");
    return plain_page("To the vehicles", "The address lets in one device, and is then used up.", std::move(html));
}

}  // namespace casebound
