/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Writes a netlist in the words of a general circuit solver and reads its operating point.
 */
#include "spice.h"

#include <ngspice/sharedspice.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_LINES = 600, LINE = 700 };

typedef struct deck {
    char *lines[MOST_LINES];
    size_t count;
} deck;

static void put(deck *d, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void put(deck *d, const char *format, ...)
{
    if (d->count + 1 >= MOST_LINES)
        abort();
    char *line = malloc(LINE);
    if (!line)
        abort();
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(line, LINE, format, arguments);
    va_end(arguments);
    d->lines[d->count++] = line;
    d->lines[d->count] = NULL;
}

/* Three limits and zero, each corner rounded as in the element's law; intermediate values are voltages of nodes. */
static void put_charger(deck *d, size_t i, const lw_element *e)
{
    const lw_charger_element *c = &e->charger;
    const double w = 0.01 * e->value;
    const bool linear = c->efficiency == 0.0;
    put(d, "Bx%zua x%zua 0 V=%.12g", i, i, e->value);
    put(d, "Bx%zub x%zub 0 V=(%.12g-V(n%d))/%.12g", i, i, c->full_v, e->b, c->regulation_ohm);
    put(d, "Bx%zuc x%zuc 0 V=(V(n%d)-%.12g%s%s%d%s)/%.12g", i, i, e->a, c->start_v, linear ? "-V(" : "-0*V(", "n", e->b,
        ")", c->input_ohm);
    if (linear)
        put(d, "Bx%zud x%zud 0 V=1e6", i, i);
    else
        put(d, "Bx%zud x%zud 0 V=(V(n%d)-%.12g-V(n%d))/%.12g", i, i, e->a, c->dropout_v, e->b, c->input_ohm);
    put(d, "Bx%zul x%zul 0 V=min(min(V(x%zua),V(x%zub)),min(V(x%zuc),V(x%zud)))", i, i, i, i, i, i);
    put(d,
        "Bx%zus x%zus 0 V=V(x%zul)-%.12g*ln(exp((V(x%zul)-V(x%zua))/%.12g)+exp((V(x%zul)-V(x%zub))/%.12g)+"
        "exp((V(x%zul)-V(x%zuc))/%.12g)+exp((V(x%zul)-V(x%zud))/%.12g))",
        i, i, i, w, i, i, w, i, i, w, i, i, w, i, i, w);
    put(d, "Bx%zui x%zui 0 V=(V(x%zus)>%.12g)?V(x%zus):%.12g*ln(1+exp(max(V(x%zus),%.12g)/%.12g))", i, i, i, 40 * w, i,
        w, i, -40 * w, w);
    put(d, "Bx%zuo 0 n%d I=V(x%zui)", i, e->b, i);
    if (linear)
        put(d, "Bx%zun n%d 0 I=V(x%zui)", i, e->a, i);
    else
        put(d, "Bx%zun n%d 0 I=max(V(n%d),0)*V(x%zui)/(%.12g*max(V(n%d),0.5))", i, e->a, e->b, i, c->efficiency, e->a);
}

static void put_element(deck *d, size_t i, const lw_element *e)
{
    switch (e->kind) {
    case LW_RESISTANCE:
        put(d, "R%zu n%d n%d %.12g", i, e->a, e->b, e->value);
        break;
    case LW_VOLTAGE:
        put(d, "V%zu n%d n%d %.12g", i, e->a, e->b, e->value);
        break;
    case LW_CURRENT:
        put(d, "I%zu n%d n%d %.12g", i, e->a, e->b, e->value);
        break;
    case LW_DIODE:
        put(d, "D%zu n%d n%d md%zu", i, e->a, e->b, i);
        put(d, ".model md%zu D(IS=%.12g N=%.12g)", i, e->value, e->ideality);
        break;
    case LW_TRANSISTOR:
        put(d, "Q%zu n%d n%d n%d mq%zu", i, e->a, e->c, e->b, i);
        put(d, ".model mq%zu %s(IS=%.12g BF=%.12g BR=1 VAF=%.12g)", i, e->pnp ? "PNP" : "NPN", e->value, e->gain,
            e->early_v);
        break;
    case LW_CONTROLLED:
        put(d, "B%zu n%d n%d I=V(n%d,n%d)*(%.12g+%.12g*0.5*(1+tanh(0.5*(V(n%d)-%.12g)/0.04)))", i, e->a, e->b, e->a,
            e->b, 1.0 / e->off_ohm, 1.0 / e->value - 1.0 / e->off_ohm, e->c, e->threshold_v);
        break;
    case LW_COMPARATOR:
        put(d, "Bo%zu o%zu 0 V=V(n%d)*0.5*(1+tanh(0.5*%.12g*(V(n%d)-V(n%d))))", i, i, e->b, e->value, e->c, e->d);
        put(d, "Vo%zu o%zu n%d 0", i, i, e->a);
        put(d, "Bs%zu n%d 0 I=i(Vo%zu)*0.5*(1+tanh(0.5*%.12g*(V(n%d)-V(n%d))))", i, e->b, i, e->value, e->c, e->d);
        break;
    case LW_SINK:
        put(d, "B%zu n%d n%d I=%.12g*tanh(2*max(V(n%d,n%d),0)/%.12g)+1e-12*V(n%d,n%d)", i, e->a, e->b, e->value, e->a,
            e->b, e->threshold_v, e->a, e->b);
        break;
    case LW_CHARGER:
        put_charger(d, i, e);
        break;
    }
}

/* Node 0 is written n0; it is tied to the solver's ground. */
static void write_deck(deck *d, const lw_netlist *net, const double *start)
{
    put(d, "a netlist");
    put(d, ".options reltol=1e-7 abstol=1e-13 vntol=1e-9 gmin=1e-12 itl1=1000");
    put(d, "Vground n0 0 0");
    for (size_t i = 0; i < net->count; i++)
        put_element(d, i, &net->elements[i]);
    for (int k = 1; start && k <= net->nodes; k++)
        put(d, ".nodeset v(n%d)=%.9g", k, start[k]);
    put(d, ".end");
}

static int quiet(char *text, int id, void *user)
{
    (void)id;
    (void)user;
    if (getenv("SPICE_TALK"))
        (void)fprintf(stderr, "%s\n", text);
    return 0;
}

static int leave(int status, NG_BOOL now, NG_BOOL quit, int id, void *user)
{
    (void)now;
    (void)quit;
    (void)id;
    (void)user;
    (void)fprintf(stderr, "the general solver left with %d\n", status);
    exit(1);
}

static void begin(void)
{
    static bool begun = false;
    if (!begun)
        (void)ngSpice_Init(quiet, quiet, leave, NULL, NULL, NULL, NULL);
    begun = true;
}

bool spice_solve(const lw_netlist *net, const double *start, double *v)
{
    begin();
    deck d = {.count = 0};
    write_deck(&d, net, start);
    char run[] = "op", clear[] = "destroy all", drop[] = "remcirc";
    bool found = ngSpice_Circ(d.lines) == 0 && ngSpice_Command(run) == 0;
    v[0] = 0.0;
    for (int k = 1; k <= net->nodes && found; k++) {
        char name[24];
        (void)snprintf(name, sizeof name, "n%d", k);
        const vector_info *vector = ngGet_Vec_Info(name);
        found = vector && vector->v_length > 0;
        if (found)
            v[k] = vector->v_realdata[0];
    }
    (void)ngSpice_Command(clear);
    (void)ngSpice_Command(drop);
    for (size_t i = 0; i < d.count; i++)
        free(d.lines[i]);
    return found;
}

static bool sweep(const spice_ramp *ramp, int steps, double *at)
{
    begin();
    deck d = {.count = 0};
    put(&d, "a sweep");
    put(&d, ".options reltol=1e-6 abstol=1e-13 vntol=1e-8 gmin=1e-13 itl1=1000 itl2=500 temp=%.6g tnom=25",
        ramp->celsius);
    put(&d, "Vground n0 0 0");
    for (size_t i = 0; i < ramp->net->count; i++)
        if (i != ramp->swept)
            put_element(&d, i, &ramp->net->elements[i]);
    const lw_element *e = &ramp->net->elements[ramp->swept];
    put(&d, "Vramp ramp 0 0");
    put(&d, "Bswept n%d n%d I=V(n%d,n%d)*exp(-V(ramp))", e->a, e->b, e->a, e->b);
    put(&d, ".end");
    const double step = (ramp->to - ramp->from) / steps;
    char run[96], clear[] = "destroy all", drop[] = "remcirc", name[24];
    (void)snprintf(run, sizeof run, "dc vramp %.9g %.9g %.9g", ramp->from, ramp->to, step);
    (void)snprintf(name, sizeof name, "n%d", ramp->watched);
    bool found = ngSpice_Circ(d.lines) == 0 && ngSpice_Command(run) == 0;
    const vector_info *v = found ? ngGet_Vec_Info(name) : NULL;
    found = false;
    for (int i = 1; v && i < v->v_length && !found; i++) {
        found = (v->v_realdata[i] > ramp->level_v) != (v->v_realdata[0] > ramp->level_v);
        *at = ramp->from + step * (i - 0.5);
    }
    (void)ngSpice_Command(clear);
    (void)ngSpice_Command(drop);
    for (size_t i = 0; i < d.count; i++)
        free(d.lines[i]);
    return found;
}

/* A step that ends just where the state does may find no operating point: other steps then. */
bool spice_sweep(const spice_ramp *ramp, double *at)
{
    return sweep(ramp, 2000, at) || sweep(ramp, 2117, at) || sweep(ramp, 1871, at);
}
