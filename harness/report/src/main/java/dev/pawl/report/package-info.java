/**
 * Reports: {@code model} is the one result, {@code collect} and {@code picture} fill it, and
 * {@link dev.pawl.report.ReportFormat} lists the forms it is written in, each in a package of its own. Uses the engine
 * and knows no files.
 */
package dev.pawl.report;
