# SPDX-License-Identifier: GPL-3.0-or-later
# The catalogues: a language more is a file more.
add_test(NAME words.add_language COMMAND ${CMAKE_CURRENT_LIST_DIR}/add_language.py ${CMAKE_C_COMPILER})
add_test(NAME words.sentences COMMAND ${CMAKE_CURRENT_LIST_DIR}/sentences.py ${CMAKE_C_COMPILER})
