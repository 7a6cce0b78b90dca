#include "science/stack.h"

namespace casebound::filters_seals {
namespace {

// Widths and places across: only to be seen, no lengths of any vehicle.
constexpr double kPanWidth = 160, kFilterLeft = 30, kFilterWidth = 90, kNeckLeft = 60, kNeckWidth = 22, kSealWidth = 5,
                 kRimWidth = 12, kCaseHeight = 14, kUnseenSealHeight = 4;

// The rail is y = 0; the pan hangs below it, the bore goes up from it.
struct Drawing {
    const FilterStack& stack;
    const StackAnswer& answer;
    std::optional<double> seal_height_mm;
    Picture picture{"Section through pan, filter, neck and seal", "", {}};

    double old_seal() const { return stack.old_seal_left_mm.value_or(0.0); }

    void box(double x, double y, double width, double height, std::string label, bool emphasis = false) {
        picture.shapes.push_back({Shape::Kind::box, x, y, width, height, std::move(label), emphasis});
    }
    void line(double x, double y, double width, double height, std::string label, bool emphasis = false) {
        picture.shapes.push_back({Shape::Kind::line, x, y, width, height, std::move(label), emphasis});
    }
    void say(const std::string& text) {
        picture.text_equivalent += (picture.text_equivalent.empty() ? "" : " ") + text;
    }

    void case_and_rail() {
        const double edge = kNeckLeft - kSealWidth;
        box(-kRimWidth, -kCaseHeight, edge + kRimWidth, kCaseHeight, "case");
        box(kNeckLeft + kNeckWidth + kSealWidth, -kCaseHeight,
            kPanWidth - kNeckLeft - kNeckWidth - kSealWidth + kRimWidth, kCaseHeight, "");
        line(-kRimWidth, 0, kPanWidth + 2 * kRimWidth, 0, "rail");
        say("Section, from the top down; heights to scale, widths not.");
    }

    void seal_in_bore() {
        if (!stack.depth_to_seal_mm) return;
        const double depth = stack.depth_to_seal_mm->nominal, height = seal_height_mm.value_or(kUnseenSealHeight);
        for (const double x : {kNeckLeft - kSealWidth, kNeckLeft + kNeckWidth})
            box(x, -depth - height, kSealWidth, height, x < kNeckLeft ? "seal: may stay in the case" : "", true);
        line(kNeckLeft + kNeckWidth + 2 * kSealWidth, -depth, 0, depth, shown(depth) + " mm to the seal");
        say("The seal sits " + shown(depth) + " mm up the bore and may stay in the case when the filter comes off.");
    }

    void old_seal_left() {
        if (old_seal() <= 0.0) {
            say(stack.old_seal_left_mm ? "No old seal is left in the bore: it was looked for."
                                       : "Nobody has looked up the bore for an old seal.");
            return;
        }
        const double depth = stack.depth_to_seal_mm ? stack.depth_to_seal_mm->nominal : 0.0;
        for (const double x : {kNeckLeft - kSealWidth, kNeckLeft + kNeckWidth})
            box(x, -depth, kSealWidth, old_seal(),
                x < kNeckLeft ? "old seal left in, " + shown(old_seal()) + " mm" : "", true);
        say("An old seal, " + shown(old_seal()) + " mm high, is left in: filter and neck hang " + shown(old_seal()) +
            " mm lower. Take it out.");
    }

    void neck() {
        if (!stack.neck_length_mm) return;
        const double length = stack.neck_length_mm->nominal;
        box(kNeckLeft, -length + old_seal(), kNeckWidth, length, "neck " + shown(length) + " mm");
        if (!answer.engagement_mm) return;
        const double reach = answer.engagement_mm->nominal;
        if (reach > 0)
            line(kNeckLeft + kNeckWidth / 2, -length + old_seal(), 0, reach, "reach " + shown(reach) + " mm", true);
        say("The neck, " + shown(length) + " mm long, " +
            (reach > 0 ? "reaches " + shown(reach) + " mm into the seal."
                       : "does not reach the seal: " + shown(-reach) + " mm short."));
    }

    void filter() {
        if (!stack.filter_height_mm) return;
        const double height = stack.filter_height_mm->nominal;
        box(kFilterLeft, old_seal(), kFilterWidth, height, "filter " + shown(height) + " mm");
        say("The filter's lowest point is " + shown(height + old_seal()) + " mm below the rail.");
    }

    void pan() {
        if (!stack.pan_depth_mm) return;
        const double depth = stack.pan_depth_mm->nominal;
        line(0, 0, 0, depth, "pan " + shown(depth) + " mm");
        line(0, depth, kPanWidth, 0, "pan floor");
        line(kPanWidth, 0, 0, depth, "");
        say("The pan is " + shown(depth) + " mm deep.");
        if (!answer.gap_mm) return;
        const double gap = answer.gap_mm->nominal;
        if (gap > 0) line(kFilterLeft + kFilterWidth + 5, depth - gap, 0, gap, "gap " + shown(gap) + " mm", true);
        say(gap > 0   ? "Between filter and pan floor is a gap of " + shown(gap) + " mm."
            : gap < 0 ? "The filter stands " + shown(-gap) + " mm below the pan floor: the pan will not close."
                      : "The filter touches the pan floor.");
    }
};

}  // namespace

Picture section_picture(const FilterStack& stack, const StackAnswer& answer, std::optional<double> seal_height_mm) {
    Drawing drawing{stack, answer, seal_height_mm};
    drawing.case_and_rail();
    drawing.seal_in_bore();
    drawing.old_seal_left();
    drawing.neck();
    drawing.filter();
    drawing.pan();
    return std::move(drawing.picture);
}

}  // namespace casebound::filters_seals
