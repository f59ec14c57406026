/** What an archive came to, for analysts: tables of comma-separated values, and a page of what deserves a look. */
package dev.pawl.fleet.table;
