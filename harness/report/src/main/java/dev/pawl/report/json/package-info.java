/**
 * report.json, written and read as a stream, and report.sarif. The format of the first is fixed by
 * {@code report.schema.json}, that of the second by OASIS; Jackson stays in here.
 */
package dev.pawl.report.json;
