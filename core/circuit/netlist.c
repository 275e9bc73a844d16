/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Building a netlist: see lanewick/netlist.h.
 */
#include "lanewick/netlist.h"

#include <stdint.h>

bool lw_netlist_begin(lw_netlist *net, size_t room, lw_arena *arena, lw_error *err)
{
    *net = (lw_netlist){.room = room, .celsius = 27.0};
    net->elements = lw_arena_take(arena, room, sizeof *net->elements, err);
    return net->elements != NULL;
}

int lw_netlist_node(lw_netlist *net)
{
    return ++net->nodes;
}

size_t lw_netlist_add(lw_netlist *net, lw_element element)
{
    if (net->count >= net->room) {
        net->count = SIZE_MAX; /* the solver sees it */
        return SIZE_MAX;
    }
    net->elements[net->count] = element;
    return net->count++;
}
