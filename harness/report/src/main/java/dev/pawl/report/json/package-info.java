/**
 * report.json, written and read as a stream. The format is fixed by {@code report.schema.json}; Jackson stays in here.
 */
package dev.pawl.report.json;
