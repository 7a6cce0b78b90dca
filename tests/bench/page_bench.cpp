// A page over the JSON of the same answer, in one run: page_bench CATALOG PLUGINS LINE [JOB]
// For a vehicle of LINE with nothing told: the median time of each, their ratio, and the page's bytes. Pages that no
// command answers are compared with the JSON of the vehicle's list of roles.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "core/page/page.h"
#include "core/page/page_command.h"
#include "core/shop/shop_vehicles.h"

using namespace casebound;

namespace {

template <class Work> double median_us(Work work) {
    std::vector<double> times;
    for (int i = 0; i < 31; ++i) {
        const auto start = std::chrono::steady_clock::now();
        work();
        times.push_back(std::chrono::duration<double, std::micro>(std::chrono::steady_clock::now() - start).count());
    }
    std::nth_element(times.begin(), times.begin() + 15, times.end());
    return times[15];
}

struct Compared {
    std::string path;
    Fields query;
    std::string command;
    Args args;
};

void measure(Session& session, Session& as_json, const Compared& one) {
    PageRequest request;
    request.path = one.path;
    request.query = one.query;
    const auto reply = page_reply(session, request);
    const auto page = median_us([&] { page_reply(session, request); });
    const auto json = median_us([&] { run_command(as_json, one.command, one.args); });
    fmt::print("{:<28} {:>6} {:>8} {:>10.0f} {:<10} {:>10.0f} {:>7.2f}\n", one.path, reply.status, reply.body.size(),
               page, one.command, json, page / json);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 4) {
        std::fputs("usage: page_bench CATALOG PLUGINS LINE [JOB]\n", stderr);
        return 64;
    }
    start_single_threaded_sqlite();
    const std::string shop = std::string(argv[1]) + ".page-shop", line = argv[3], job = argc > 4 ? argv[4] : "";
    std::filesystem::remove(shop);
    Session::Options options{argv[1], shop, shop + ".probed", {argv[2]}};
    Session session(options);
    options.json = true;
    Session as_json(options);
    ShopVehicles(session.shop()).create("van", line);
    std::vector<Compared> all{{"/", {}, "vehicle list", {}},
                              {"/vehicle/van", {}, "ask", {{"van"}, {}}},
                              {"/vehicle/van/fits", {}, "fits", {{"van"}, {}}},
                              {"/catalog/line", {{"key", line}}, "fits", {{"van"}, {}}},
                              {"/catalog", {}, "fits", {{"van"}, {}}},
                              {"/catalog/sources", {}, "fits", {{"van"}, {}}},
                              {"/vehicle/van/record", {}, "record", {{"van"}, {}}},
                              {"/vehicle/van/decide", {}, "decide", {{"van"}, {}}}};
    if (!job.empty()) {
        all.push_back({"/vehicle/van/list", {{"job", job}}, "list", {{"van", job}, {}}});
        all.push_back({"/vehicle/van/order", {{"job", job}}, "buy", {{"van", job}, {}}});
    }
    fmt::print("{:<28} {:>6} {:>8} {:>10} {:<10} {:>10} {:>7}\n", "page", "status", "bytes", "page us", "command",
               "JSON us", "ratio");
    for (const auto& one : all) measure(session, as_json, one);
}
