// The fluid formulas against a program that shares no code with them: bc works
// every formula out again in 40 decimals, on many generated inputs.
#include <catch2/catch.hpp>

#include <random>
#include <string>
#include <vector>

#include "core/contract/valid_range.h"
#include "plugins/transmission_fluids/science/blend.h"
#include "plugins/transmission_fluids/science/level.h"
#include "plugins/transmission_fluids/science/residual.h"
#include "plugins/transmission_fluids/science/viscosity.h"
#include "plugins/transmission_fluids/science/viscosity_index.h"
#include "tests/bc_calculator.h"

using namespace casebound::transmission_fluids;
using casebound::number_text;

namespace {

struct Check {
    std::string question;
    double ours;
    double tolerance = 1e-10;  // relative
};

void compare(const std::vector<Check>& checks, const std::string& definitions) {
    std::vector<std::string> questions;
    for (const Check& check : checks) questions.push_back(check.question);
    const auto answers = casebound::tests::run_bc(questions, definitions);
    for (std::size_t i = 0; i < checks.size(); ++i) {
        INFO(checks[i].question);
        CHECK(checks[i].ours == Approx(answers[i]).epsilon(checks[i].tolerance).margin(1e-13));
    }
}

// Written from the standards, not from our code. Above 20 mm2/s the exponentials
// of ASTM D341 are below 1e-100 and left out: bc would need minutes for them.
const char* const formulas = R"(define g(x){return l(x)/l(10);}
define p(x,y){return e(y*l(x));}
define z(v){if(v>20)return v+0.7;return v+0.7+e(-1.47-1.84*v-0.51*v*v);}
define i(z){auto w;w=z-0.7;if(w>20)return w;return w-e(-0.7487-3.295*w+0.6119*w*w-0.3193*w*w*w);}
define b(t,v,u,w){return (g(g(z(v)))-g(g(z(w))))/(g(u+273.15)-g(t+273.15));}
define n(t,v,u,w,x){return i(p(10,p(10,g(g(z(v)))-b(t,v,u,w)*(g(x+273.15)-g(t+273.15)))));}
define r(v){return 14.534*l(l(v+0.8))+10.975;}
define q(x){return e(e((x-10.975)/14.534))-0.8;}
define m(u,v){return q((r(u)+r(v))/2);}
define d(k,o,t,s){auto a;a=k/o;return e(-a*(t-s)*(1+0.8*a*(t-s)));}
define y(h,x){auto s;s=h/x;return a(s/sqrt(1-s*s))*45/a(1);}
define t(x){auto a;a=x*a(1)/45;return s(a)/c(a);}
define f(l,h,u){return 100*(l-u)/(l-h);}
define o(h,u,y){return (p(10,l(h/u)/l(y))-1)/0.00715+100;}
)";

// name(a,b,...)
std::string call(const char* name, std::initializer_list<double> arguments) {
    std::string text = name;
    char before = '(';
    for (const double argument : arguments) {
        text += before + number_text(argument);
        before = ',';
    }
    return text + ")";
}

class Inputs {
public:
    double operator()(double low, double high) { return std::uniform_real_distribution<double>(low, high)(random_); }

private:
    std::mt19937_64 random_{20260101};
};

Check viscosity_index_check(Inputs& any) {
    const double kv100 = any(2, 90);
    const double kv40 = kv100 * any(1.5, 20);
    const auto index = *viscosity_index(kv40, kv100);
    const double l = index.reference.l_mm2_s, h = index.reference.h_mm2_s;
    return {index.procedure == IndexProcedure::a ? call("f", {l, h, kv40}) : call("o", {h, kv40, kv100}), index.exact,
            1e-9};
}

Check viscosity_check(Inputs& any) {
    const double cold = any(10, 60), hot = any(70, 130), temp = any(0, 150);
    const double kv_hot = any(1.0, 30), kv_cold = kv_hot * any(1.3, 10);
    const auto line = viscosity_line({cold, kv_cold}, {hot, kv_hot});
    return {call("n", {cold, kv_cold, hot, kv_hot, temp}), viscosity_at(line, temp).kv_mm2_s, 1e-9};
}

Check slope_check(Inputs& any) {
    const double kv100 = any(1.0, 30), kv40 = kv100 * any(1.3, 10);
    return {call("b", {40, kv40, 100, kv100}), viscosity_line({40, kv40}, {100, kv100}).b};
}

Check z_check(Inputs& any) {
    const double kv = any(0.21, 6);
    return {call("z", {kv}), d341_z(kv, D341Form::full)};
}

Check z_inverse_check(Inputs& any) {
    const double z = any(1.01, 7);
    return {call("i", {z}), d341_kv(z, D341Form::full)};
}

Check refutas_check(Inputs& any) {
    const double kv = any(0.25, 2000);
    return {call("r", {kv}), blend_index(kv, BlendMethod::refutas), 1e-9};
}

Check blend_check(Inputs& any) {
    const double a = any(0.5, 300), b = any(0.5, 300);
    return {call("m", {a, b}), blend_kv({{0.5, a}, {0.5, b}}, BlendMethod::refutas), 1e-9};
}

Check expansion_c_check(Inputs& any) {
    const double density = any(801, 1164), temp = any(-50, 150);
    return {call("d", {0.6278, density, temp, 15}), volume_correction_15c(density, temp)};
}

Check expansion_f_check(Inputs& any) {
    const double density = any(801, 1164), temp = any(-58, 302);
    return {call("d", {0.34878, density, temp, 60}), volume_correction_60f(density, temp)};
}

Check residual_check(Inputs& any) {
    const double total = any(4, 16), drained = total * any(0.05, 0.9);
    const int changes = static_cast<int>(any(1, 12));
    return {"(1-" + number_text(drained) + "/" + number_text(total) + ")^" + std::to_string(changes),
            old_fluid_left(total, drained, changes)};
}

Check exchange_check(Inputs& any) {
    const double total = any(4, 16), exchanged = any(0, 30);
    return {"e(-" + number_text(exchanged) + "/" + number_text(total) + ")",
            continuous_exchange(total, exchanged).worst_old};
}

Check exchange_target_check(Inputs& any) {
    const double total = any(4, 16), target = any(0.01, 0.99);
    return {"-l(" + number_text(target) + ")*" + number_text(total), exchange_for_target_l(total, target)};
}

Check tilt_check(Inputs& any) {
    const double height = any(1, 400), wheelbase = any(2000, 4000);
    return {call("y", {height, wheelbase}), tilt_deg(height, wheelbase)};
}

Check tilt_error_check(Inputs& any) {
    const double distance = any(1, 600), angle = any(0.1, 29);
    return {number_text(distance) + "*" + call("t", {angle}), tilt_error_mm(distance, angle)};
}

}  // namespace

TEST_CASE("bc works out the same numbers for every transcendental formula") {
    Inputs any;
    std::vector<Check> checks;
    for (const auto make : {viscosity_index_check, viscosity_check, slope_check, z_check, z_inverse_check,
                            refutas_check, blend_check, expansion_c_check, expansion_f_check, residual_check,
                            exchange_check, exchange_target_check, tilt_check, tilt_error_check})
        for (int i = 0; i < 60; ++i) checks.push_back(make(any));
    compare(checks, formulas);
}
