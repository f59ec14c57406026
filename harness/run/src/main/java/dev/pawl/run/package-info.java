/**
 * Judging as a library: {@link dev.pawl.run.SourceJudge} makes one source into one result, a
 * {@link dev.pawl.run.Session} many sources into a report. A {@link dev.pawl.run.EventSource} is where events come
 * from, a {@link dev.pawl.run.Controller} what answers to them. The {@code pawl} command is one user of this room; a
 * test of your own is another:
 *
 * <pre>{@code
 * RuleFiles rules = RuleFiles.load(List.of("ride.rules"));
 * Session session = Session.by(rules);
 * Report report = session.judge(session.traces(List.of("monday.csv")));
 * boolean held = report.count(Verdict.BROKEN) == 0 && !report.hasFailure();
 * }</pre>
 *
 * <p>Nothing here prints, ends the process or knows of options. What is wrong with a trace is in its result; what is
 * wrong with all the rest is a {@link dev.pawl.run.RunException}.
 */
package dev.pawl.run;
