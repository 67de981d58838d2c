#!/bin/sh
# Runs after each release build, before precache.sh: takes the program apart where
# src/ui/pieces.rs says so, and makes every piece small. In the place of trunk's script and program
# it leaves in TRUNK_STAGING_DIR one script, the program that starts, and what it fetches later:
#
#   handwheel-<digest>.js, handwheel-<digest>.wasm    in the page
#   handwheel-<digest>-<piece>.wasm                   fetched by the script
#
# The digest is of them all, so that no piece ever meets a program that it was not cut from.
set -eu
[ "$TRUNK_PROFILE" = release ] || exit 0
cd "$TRUNK_STAGING_DIR"
trunk=$(sed -n 's|.* data-js="\./\([^"]*\)\.js".*|\1|p' index.html)
work=$(mktemp -d)
trap 'rm -r "$work"' EXIT

digest() {
    if command -v sha256sum >/dev/null; then sha256sum; else shasum -a 256; fi | cut -c1-16
}

shrink() { # a program, in its place; of what browsers know, only what rustc uses by itself
    wasm-opt -Oz --enable-bulk-memory --enable-call-indirect-overlong --enable-multivalue \
        --enable-mutable-globals --enable-nontrapping-float-to-int --enable-reference-types \
        --enable-sign-ext "$1" -o "$1.small"
    mv "$1.small" "$1"
}

if ! grep -q __wasm_split "$trunk.js"; then
    shrink "${trunk}_bg.wasm" # built without the feature `pieces`: one program
    exit
fi

target=${CARGO_TARGET_DIR:-$TRUNK_SOURCE_DIR/../target}
whole=$target/wasm32-unknown-unknown/release/handwheel.wasm

# First apart, then tied to the browser: what wasm-bindgen leaves cannot be taken apart any more.
wasm-split-cli "$whole" "$work" --target web --out-name program
wasm-bindgen --target web --keep-lld-exports --no-demangle --no-typescript \
    --out-dir "$work/tied" --out-name program "$work/program.wasm"
mv "$work/tied/program_bg.wasm" "$work/program.wasm"
for piece in "$work"/*.wasm; do
    shrink "$piece"
done

# One script: out of the stored files, each one more costs a start some milliseconds.
{
    sed '/^import \* as import[0-9]* from "\.\/__wasm_split\.js"/d
        s/"\.\/__wasm_split\.js": import[0-9]*,/".\/__wasm_split.js": loaders,/' \
        "$work/tied/program.js"
    sed '/^import {/d
        s/^export const/const/
        s/WebAssembly\.instantiateStreaming(/instantiate(/' "$work/__wasm_split.js"
    echo 'const loaders = {'
    sed -n 's/^export const \([A-Za-z0-9_]*\) =.*/    \1,/p' "$work/__wasm_split.js"
    cat <<'JS'
};

// Some hosts do not know what a program is, and call it by another type.
async function instantiate(fetched, imports) {
    const response = await fetched;
    if (response.headers.get('content-type') === 'application/wasm') {
        return WebAssembly.instantiateStreaming(response, imports);
    }
    return WebAssembly.instantiate(await response.arrayBuffer(), imports);
}
JS
} >"$work/program.js"

name=handwheel-$(cat "$work/program.js" "$work"/*.wasm | digest)
rm "$trunk.js" "${trunk}_bg.wasm"
sed "s/new URL(\"\.\/\(chunk_\|split_\)\([a-z0-9_]*\)\.wasm\"/new URL(\".\/$name-\2.wasm\"/
    s/program_bg\.wasm/$name.wasm/" "$work/program.js" >"$name.js"
mv "$work/program.wasm" "$name.wasm"
for piece in "$work"/*.wasm; do
    mv "$piece" "$name-$(basename "$piece" | sed 's/^[a-z]*_//')"
done
sed "s/${trunk}_bg\.wasm/$name.wasm/g; s/$trunk\.js/$name.js/g" index.html >index.new
mv index.new index.html
