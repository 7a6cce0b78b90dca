// Loads a pack made by generate_pack and says how long it took: load_pack FOLDER CATALOG
#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <exception>

#include <fmt/format.h>

#include "core/pack/pack.h"
#include "core/store/sqlite.h"
#include "tests/bench/synthetic_domain.h"

int main(int argc, char** argv) {
    if (argc != 3) {
        std::fputs("usage: load_pack FOLDER CATALOG\n", stderr);
        return 64;
    }
    casebound::start_single_threaded_sqlite();  // as the program does
    try {
        const auto start = std::chrono::steady_clock::now();
        const auto report = casebound::load_pack(argv[1], argv[2], casebound::bench::synthetic_plugins());
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - start;
        for (const auto& fault : report.faults) fmt::print(stderr, "{}\n", fault.text());
        for (const auto& warning : report.warnings) fmt::print(stderr, "note: {}\n", warning.text());
        rusage used{};
        ::getrusage(RUSAGE_SELF, &used);
        const auto seconds = [](const timeval& time) {
            return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) * 1e-6;
        };
        fmt::print("{{\"seconds\":{:.3f},\"cpu_seconds\":{:.3f},\"peak_kb\":{},\"faults\":{},\"unchanged\":{}}}\n",
                   took.count(), seconds(used.ru_utime) + seconds(used.ru_stime), used.ru_maxrss, report.faults.size(),
                   report.summary.unchanged);
        return report.faults.empty() ? 0 : 65;
    } catch (const std::exception& failure) {
        std::fprintf(stderr, "%s\n", failure.what());
        return 70;
    }
}
