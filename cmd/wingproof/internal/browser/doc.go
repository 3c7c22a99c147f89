// Package browser holds tests alone: it opens the report folder and the live page in a headless browser, as somebody in the shop
// would, and asks what only a browser can answer. Does anything stick out at desk, tablet or phone width; is the wall sheet one
// sheet of paper; do the controls work, and is the page whole without them; is every text legible in light and dark; does the
// live page renew itself and keep its reader's place?
//
// The tests see the program from outside. They build it, let it make the demo, and read nothing but its output, its files and
// what it serves. They need a Chromium in PATH; without one they are skipped and say so, unless WINGPROOF_BROWSER=required. The
// rules of accessibility are those of axe-core, whose script the variable WINGPROOF_AXE names (axe.min.js).
package browser
