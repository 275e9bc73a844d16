# SPDX-License-Identifier: GPL-3.0-or-later
# The parts of format and desk that the page runs by itself: documents on wasm/values.c instead of the jansson library, no
# files, no store, one thread. What a plan does not need is not linked.
file(GLOB desk_sources CONFIGURE_DEPENDS desk/plan_*.c desk/lane_*.c desk/json_*.c format/*.c)
list(FILTER desk_sources EXCLUDE REGEX "desk/(plan_(text|tables|lane_text|wired)|json_nights)\\.c$")
list(FILTER desk_sources EXCLUDE REGEX "format/(brief_priced|brief_moved|price_list_json|shelf_change|crate_json|problem_json|serve_json|slip_.*|gerber.*)\\.c$")
list(APPEND desk_sources desk/brief_climate.c desk/read_file.c desk/usable.c desk/ribbon.c desk/pack_cells.c)
add_library(lw_desk_wasm STATIC ${desk_sources} wasm/values.c wasm/tickets.c)
target_link_libraries(lw_desk_wasm PUBLIC lw_flags)
target_include_directories(lw_desk_wasm PUBLIC wasm/values)
file(STRINGS wasm/desk_door.h most REGEX "LW_DESK_DOOR_BYTES = ")
string(REGEX REPLACE ".*= ([0-9]+) << 20.*" "\\1" most "${most}")
math(EXPR LW_DESK_DOOR_BYTES "${most} << 20")
