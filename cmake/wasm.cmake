# SPDX-License-Identifier: GPL-3.0-or-later
# Toolchain file for the core as WebAssembly, with Debian's clang, lld and wasi-libc.
set(CMAKE_SYSTEM_NAME Generic)
set(CMAKE_SYSTEM_PROCESSOR wasm32)
set(CMAKE_C_COMPILER clang)
set(CMAKE_C_COMPILER_TARGET wasm32-wasi)
set(CMAKE_AR llvm-ar-14)
set(CMAKE_RANLIB llvm-ranlib-14)
set(CMAKE_C_FLAGS_INIT -msimd128)
set(CMAKE_EXE_LINKER_FLAGS_INIT "-Wl,-z,stack-size=1048576")
set(CMAKE_TRY_COMPILE_TARGET_TYPE STATIC_LIBRARY)
