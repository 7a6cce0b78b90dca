// Writes a synthetic pack of any size: generate_pack FOLDER APPLICATIONS
// 40 applications a line, 128 configurations a line, one group for 20 applications, two items a group, one source
// for 1,000 applications. The same size gives the same bytes. Everything is invented.
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include <fmt/format.h>

#include "core/ground/file_stamp.h"
#include "core/ground/replacement.h"
#include "core/pack/pack.h"
#include "tests/bench/synthetic_domain.h"

namespace {

constexpr long per_line = 40, per_group = 20, per_source = 1000;

struct Size {
    explicit Size(long n)
        : applications(n), lines(n / per_line + 1), groups(n / per_group + 8), sources(n / per_source + 1) {}
    long applications, lines, groups, sources;
};

// The engines and first year of a line, which its conditions must agree with.
struct Line {
    explicit Line(long n)
        : key(fmt::format("line-{:06}", n)), engine(n % 90 + 10), year(1996 + static_cast<int>(n * 7 % 24)) {}
    std::string key;
    long engine;
    int year;
    std::string first_engine() const { return fmt::format("e{}", engine); }
    std::string second_engine() const { return fmt::format("e{}d", engine); }
};

bool fluid(long group) { return group % 8 == 7; }

class Generator {
public:
    Generator(std::string folder, long applications) : folder_(std::move(folder)), size_(applications) {}

    void write() {
        write_sources();
        write_lines();
        write_groups();
        write_applications();
    }

private:
    std::ofstream open(const std::string& table, const std::string& header) const {
        std::ofstream out(folder_ + "/" + table + ".csv", std::ios::binary);
        out << header << '\n';
        return out;
    }
    std::string source(long n) const { return fmt::format("src-{:05}", n % size_.sources); }

    void write_sources() const {
        auto out = open("sources", "source,kind,title,edition,note");
        for (long i = 0; i < size_.sources; ++i)
            out << fmt::format("{},invented,\"Synthetic list {}, made for measuring\",2026,\n", source(i), i);
    }

    void write_lines() const {
        auto lines = open("lines", "line,title,note,source");
        auto configurations = open("configurations", "line,attribute_values,share,source");
        for (long i = 0; i < size_.lines; ++i) {
            const Line line(i);
            lines << fmt::format("{},Synthetic line {},,{}\n", line.key, i, source(i));
            for (const char* market : {"north", "south", "east", "west"})
                configurations << fmt::format(
                    "{},engine={}|{}; drive=2wd|4wd; year={}..{}; cooler=yes|no; market={},1,{}\n", line.key,
                    line.first_engine(), line.second_engine(), line.year, line.year + 3, market, source(i));
        }
    }

    void write_groups() const {
        auto groups = open("groups", "group_key,kind,title,source");
        auto items = open("items", "item,kind,title,pack_quantity,withdrawn,source");
        auto members = open("group_members", "group_key,item,basis,source");
        for (long i = 0; i < size_.groups; ++i) {
            const char* kind = fluid(i) ? "bench-fluid" : "bench-part";
            groups << fmt::format("g-{:07},{},Synthetic group {},{}\n", i, kind, i, source(i));
            for (long j = 0; j < 2; ++j) {
                items << fmt::format("P{:02}-{:07},{},\"Synthetic item {}, made for measuring\",{},,{}\n", j, i, kind,
                                     i, fluid(i) ? 5 : 1, source(i + j));
                members << fmt::format("g-{:07},P{:02}-{:07},{},{}\n", i, j, i, j == 0 ? "same" : "meets", source(i));
            }
        }
    }

    std::string condition(const Line& line) {
        switch (random_() % 6) {
            case 0: return "";
            case 1: return "engine=" + line.first_engine();
            case 2:
                return fmt::format("engine={}; year={}..", line.second_engine(),
                                   line.year + 1 + static_cast<int>(random_() % 3));
            case 3: return fmt::format("drive=4wd; year<={}", line.year + static_cast<int>(random_() % 3));
            case 4: return fmt::format("engine={}|{}; not market=south", line.first_engine(), line.second_engine());
            default:
                return fmt::format("cooler=yes; drive={}; year={}", random_() % 2 ? "2wd" : "4wd",
                                   line.year + static_cast<int>(random_() % 4));
        }
    }

    void write_applications() {
        auto out = open("applications", "line,role,says,group_key,condition,quantity,note,withdrawn,source");
        for (long i = 0; i < size_.applications; ++i) {
            const Line line(i / per_line);
            const long group = static_cast<long>(random_() % static_cast<unsigned long>(size_.groups));
            const auto role = fluid(group) ? fmt::format("bench-fluid-{}", i % 2)
                                           : fmt::format("bench-part-{}", i % 10);
            const char* says = i % 29 == 0 ? "does_not_fit" : "fits";
            out << fmt::format("{},{},{},g-{:07},{},{},{},,{}\n", line.key, role, says, group, condition(line),
                               fluid(group) ? "4.5" : "1", i % 10 == 0 ? "as listed" : "", source(i));
        }
    }

    std::string folder_;
    Size size_;
    std::mt19937_64 random_{20261125};
};

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3) {
        std::fputs("usage: generate_pack FOLDER APPLICATIONS\n", stderr);
        return 64;
    }
    try {
        const std::string folder = argv[1];
        std::filesystem::create_directories(folder);
        Generator(folder, std::atol(argv[2])).write();
        casebound::new_pack(folder, "synthetic", casebound::bench::synthetic_plugins());
        const auto path = folder + "/datapackage.json";
        auto text = casebound::read_whole(path, 1 << 20);
        const std::string flag = "\"invented\": false";
        if (const auto at = text.find(flag); at != std::string::npos)
            casebound::replace_file(path, text.replace(at, flag.size(), "\"invented\": true"));
    } catch (const std::exception& failure) {
        std::fprintf(stderr, "%s\n", failure.what());
        return 70;
    }
    return 0;
}
