/**
 * junit.xml, the common test result format of build servers: a suite per trace, a case per rule. Uses the result model
 * and words.
 */
package dev.pawl.report.junit;
