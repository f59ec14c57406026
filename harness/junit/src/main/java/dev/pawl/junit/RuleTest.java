package dev.pawl.junit;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.TestTemplate;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * Rules over traces as tests: one for each rule in each trace. A broken rule fails with what happened and where it
 * stands in the trace; one that is undecided or was not exercised is skipped with the reason, never passed. The method
 * runs for each rule that is held, and can be empty.
 *
 * <pre>{@code
 * @RuleTest(rules = "ride.rules", traces = "traces")
 * void keepsItsRules() {}
 * }</pre>
 *
 * <p>Paths begin at the folder of the module that is built.
 */
@Documented
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
@TestTemplate
@ExtendWith(RuleTests.class)
public @interface RuleTest {

  /** Rule files, and folders of them. */
  String[] rules();

  /** Further folders whose files the rule files may use, such as that of the library. */
  String[] useFrom() default {};

  /** Recorded traces, and folders of them; with a {@link #ride} names of scenarios, all of them where none is named. */
  String[] traces() default {};

  /** File of bindings: which tag of a trace is which signal. */
  String bindings() default "";

  /** Structured Text of the logic under test, which the inputs of the traces drive. */
  String[] logic() default {};

  /** File of a described ride whose trains move as the logic commands. */
  String ride() default "";

  /** Files of decisions: findings that persons accept until a day. */
  String[] decisions() default {};

  /** Whether a broken rule is skipped instead of failed where all of it is accepted. */
  boolean acceptedPass() default false;

  /** Whether what is undecided or not exercised fails. */
  boolean requireProof() default false;
}
