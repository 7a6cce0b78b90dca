#include "core/pack/pack_loops.h"

#include <algorithm>
#include <functional>
#include <unordered_map>

#include <fmt/format.h>

#include "core/ground/utf8.h"

namespace casebound {

namespace {

// A name, and for the kit graph whether it names a group: an item and a group may have the same key.
using Node = std::uint64_t;
Node group_node(NameId name) { return name | Node{1} << 32; }
NameId name_of(Node node) { return static_cast<NameId>(node & 0xffffffff); }

struct Edge {
    Node to{};
    const TableShape* table{};  // null: of another pack
    std::uint32_t line{};
    std::size_t column{};
};

// Follows edges depth first, without recursion: a chain may be as long as a pack.
class LoopSearch {
public:
    explicit LoopSearch(const Interner& names) : names_(names) {}

    void add(Node from, Edge edge) {
        const auto [at, fresh] = edges_.try_emplace(from);
        if (fresh) order_.push_back(from);
        at->second.push_back(edge);
    }

    // One fault for each loop met, at a row of this pack. Loops wholly of other packs are theirs.
    void report(FaultList& faults, const std::function<std::string(const std::string&)>& message) {
        for (const auto start : order_) {
            if (state_[start] != State::fresh) continue;
            enter(start);
            while (!path_.empty()) step(faults, message);
        }
    }

private:
    enum class State : std::uint8_t { fresh, open, done };
    struct Step {
        Node node{};
        std::size_t next{};
    };

    void enter(Node node) {
        state_[node] = State::open;
        path_.push_back({node, 0});
    }

    void step(FaultList& faults, const std::function<std::string(const std::string&)>& message) {
        auto& here = path_.back();
        const auto found = edges_.find(here.node);
        if (found == edges_.end() || here.next == found->second.size()) {
            state_[here.node] = State::done;
            path_.pop_back();
            return;
        }
        const auto& edge = found->second[here.next++];
        if (state_[edge.to] == State::open) tell(edge.to, faults, message);
        else if (state_[edge.to] == State::fresh) enter(edge.to);
    }

    // The path from `node` on leads back to it.
    void tell(Node node, FaultList& faults, const std::function<std::string(const std::string&)>& message) {
        const auto from = std::find_if(path_.begin(), path_.end(), [&](const Step& step) { return step.node == node; });
        std::string loop;
        const Edge* ours = nullptr;
        for (auto at = from; at != path_.end(); ++at) {
            loop += shown(names_.text(name_of(at->node))) + " -> ";
            const auto& edge = edges_.at(at->node)[at->next - 1];
            if (edge.table && !ours) ours = &edge;
        }
        if (ours) faults.at(*ours->table, ours->line, ours->column, message(loop + shown(names_.text(name_of(node)))));
    }

    const Interner& names_;
    std::unordered_map<Node, std::vector<Edge>> edges_;
    std::unordered_map<Node, State> state_;
    std::vector<Node> order_;
    std::vector<Step> path_;
};

}  // namespace

void check_supersedes_loops(PackData& data, LoadedPacks& others, FaultList& faults) {
    const auto* table = data.find("stand_ins");
    if (!table) return;
    LoopSearch search(data.names);
    const auto offered = table->shape->find("offered"), relation = table->shape->find("relation"),
               wanted = table->shape->find("wanted"), withdrawn = table->shape->find("withdrawn");
    for (std::size_t row = 0; row < table->rows(); ++row)
        if (table->cell(row, relation) == "supersedes" && table->cell(row, withdrawn).empty() &&
            table->name(row, offered) != table->name(row, wanted))
            search.add(table->name(row, offered), {table->name(row, wanted), table->shape, table->lines[row], offered});
    if (others.has_rows("stand_ins")) {
        auto& rows = others.prepared(
            "SELECT offered, wanted FROM stand_ins WHERE relation = 'supersedes' AND withdrawn IS NULL AND origin NOT "
            "BETWEEN ?8 AND ?9");
        while (rows.step()) search.add(data.names.id(rows.text(0)), {data.names.id(rows.text(1)), nullptr, 0, 0});
        rows.reset();
    }
    search.report(faults, [](const std::string& loop) {
        return fmt::format("a loop of supersedes: {}: take out the statement that is wrong", loop);
    });
}

void check_kit_loops(const PackShape& shape, PackData& data, LoadedPacks& others, ItemKinds& kinds, FaultList& faults) {
    const auto* contents = data.find("kit_contents");
    if (!contents && !others.has_rows("kit_contents")) return;
    LoopSearch search(data.names);
    if (contents) {
        const auto kit = contents->shape->find("kit"), group = contents->shape->find("group_key");
        for (std::size_t row = 0; row < contents->rows(); ++row)
            search.add(contents->name(row, kit),
                       {group_node(contents->name(row, group)), contents->shape, contents->lines[row], group});
    }
    if (others.has_rows("kit_contents")) {
        auto& rows = others.prepared("SELECT kit, group_key FROM kit_contents WHERE origin NOT BETWEEN ?8 AND ?9");
        while (rows.step())
            search.add(data.names.id(rows.text(0)), {group_node(data.names.id(rows.text(1))), nullptr, 0, 0});
        rows.reset();
        auto& members = others.prepared(
            "SELECT g.text, i.text FROM item t JOIN member m ON m.item = t.id JOIN name g ON g.id = m.id >> 20 JOIN "
            "name i ON i.id = t.id "
            "WHERE t.kind = (SELECT id FROM name WHERE text = 'kit') AND m.origin NOT BETWEEN ?8 AND ?9");
        while (members.step())
            search.add(group_node(data.names.id(members.text(0))), {data.names.id(members.text(1)), nullptr, 0, 0});
        members.reset();
    }
    const NameId kit_kind = data.names.id("kit");
    const auto* members = shape.find("group_members");
    for (const auto& row : data.members)
        if (kinds.of_item(row.item) == kit_kind)
            search.add(group_node(row.group), {row.item, members, row.line, members->find("item")});
    search.report(faults, [](const std::string& loop) {
        return fmt::format("a kit that contains itself: {}: take out the row that is wrong", loop);
    });
}

}  // namespace casebound
