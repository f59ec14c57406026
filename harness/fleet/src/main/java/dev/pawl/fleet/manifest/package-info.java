/** Which ride, rules, bindings and session each trace of an archive belongs to, as MANIFEST.md there says. */
package dev.pawl.fleet.manifest;
