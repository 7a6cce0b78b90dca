#include "core/verdict/whole_containers.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>

namespace casebound {

std::vector<Container> whole_containers(double need, const std::vector<Member>& members) {
    std::map<long, const Member*> sizes;  // thousandths of the unit: as fine as containers come
    for (const auto& member : members)
        if (const long size = std::lround(member.pack_quantity * 1000); size > 0) sizes.try_emplace(size, &member);
    if (sizes.empty() || need <= 0) return {};
    long step = 0;
    for (const auto& [size, member] : sizes) step = std::gcd(step, size);
    const long largest = sizes.rbegin()->first;
    constexpr double most_steps = 1e6;  // beyond it the largest container alone
    if ((need * 1000 + static_cast<double>(largest)) / static_cast<double>(step) > most_steps) {
        const auto* member = sizes.rbegin()->second;
        return {{member->item, member->pack_quantity,
                 static_cast<int>(std::min(1e9, std::ceil(need / member->pack_quantity - 1e-9)))}};
    }
    const auto want = static_cast<std::size_t>((std::lround(std::ceil(need * 1000 - 1e-6)) + step - 1) / step);
    const auto cells = want + static_cast<std::size_t>(largest / step);
    std::vector<int> containers(cells, -1);
    std::vector<long> last(cells);
    containers[0] = 0;
    for (std::size_t i = 0; i < cells; ++i) {
        if (containers[i] < 0) continue;
        for (const auto& [size, member] : sizes) {
            const auto next = i + static_cast<std::size_t>(size / step);
            if (next < cells && (containers[next] < 0 || containers[next] > containers[i] + 1)) {
                containers[next] = containers[i] + 1;
                last[next] = size;
            }
        }
    }
    auto at = want;
    while (containers[at] < 0) ++at;  // the first at or past the need is less than the largest container past it
    std::map<long, int, std::greater<>> counts;
    while (at > 0) {
        ++counts[last[at]];
        at -= static_cast<std::size_t>(last[at] / step);
    }
    std::vector<Container> result;
    for (const auto& [size, count] : counts)
        result.push_back({sizes.at(size)->item, sizes.at(size)->pack_quantity, count});
    return result;
}

}  // namespace casebound
