#!/bin/sh
# Runs after each build, on the finished files in TRUNK_STAGING_DIR and on nothing else: puts the
# style sheets together, writes the service worker with its list of files, stamps the page with its
# version, and adds what plain static hosts want.
set -eu
template=$(cd "$(dirname "$0")" && pwd)/sw.js
cd "$TRUNK_STAGING_DIR"

digest() {
    if command -v sha256sum >/dev/null; then sha256sum; else shasum -a 256; fi | cut -c1-64
}

files() {
    find . -type f ! -name '*.map' ! -name sw.js ! -name 404.html ! -name .nojekyll |
        sed 's|^\./||' | LC_ALL=C sort
}

rewrite() { # of index.html, by a sed script
    sed "$1" index.html >index.new
    mv index.new index.html
}

if [ "$TRUNK_PROFILE" = debug ]; then
    # The reloading script of `trunk serve` is inline. And a worker that a release left on this
    # address would hide every change: it steps down.
    rewrite '/http-equiv="Content-Security-Policy"/d'
    cat >sw.js <<'JS'
addEventListener('install', () => skipWaiting());
addEventListener('activate', event => event.waitUntil(registration.unregister()));
JS
    exit
fi

# One style sheet: out of the stored files, each one more costs a start some milliseconds.
sheets=$(sed -n 's|.*<link rel="stylesheet" href="\./\([^"]*\)".*|\1|p' index.html)
if [ -n "$sheets" ]; then
    # Their names hold no blanks: trunk makes them.
    cat $sheets >all.css
    style=style-$(digest <all.css | cut -c1-16).css
    rm $sheets
    mv all.css "$style"
    first=${sheets%%[!a-z0-9.-]*}
    rewrite "s|href=\"\./$first\"|href=\"./$style\"|; /href=\"\.\/[^\"]*\.css\"/{ /$style/!d; }"
fi

version=$({ cat "$template"; files | while read -r file; do echo "$file"; cat "$file"; done; } |
    digest | cut -c1-16)
rewrite "s/data-build=\"debug\"/data-build=\"$version\"/"
if ! grep -q "data-build=\"$version\"" index.html; then
    echo 'precache.sh: <html data-build="debug"> is missing in index.html' >&2
    exit 1
fi

{
    echo "const VERSION = '$version';"
    echo 'const FILES = ['
    files | while read -r file; do
        path=$file
        [ "$file" != index.html ] || path=./
        echo "  ['$path', '$(digest <"$file")'],"
    done
    echo '];'
    echo
    cat "$template"
} >sw.js

cp index.html 404.html # answers addresses that are routes of the app and not files
: >.nojekyll           # keeps a host from leaving files out by their names
