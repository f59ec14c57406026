package dev.pawl.engine.mutation;

import java.lang.reflect.Method;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.jupiter.api.extension.InvocationInterceptor;
import org.junit.jupiter.api.extension.ReflectiveInvocationContext;

/**
 * A JUnit extension that leaves out the first run of every test in a process that PIT started to try mutants in. PIT's
 * JUnit plugin finds the tests of a process by running them all, without any mutant and without looking at the result,
 * and it starts such a process for every mutant that loops; a test's second run and all later ones are those that
 * count. The process in which PIT measures coverage, and checks that all tests pass without mutants, is another one,
 * and left alone.
 */
public final class FirstRunSkipped implements InvocationInterceptor {
  private static final boolean TRIES_MUTANTS = System.getProperty("sun.java.command", "")
      .contains("MutationTestMinion");
  private static final Set<String> FOUND = ConcurrentHashMap.newKeySet();

  @Override
  public void interceptTestMethod(Invocation<Void> test, ReflectiveInvocationContext<Method> method,
      ExtensionContext context) throws Throwable {
    run(test, context);
  }

  @Override
  public void interceptTestTemplateMethod(Invocation<Void> test, ReflectiveInvocationContext<Method> method,
      ExtensionContext context) throws Throwable {
    run(test, context);
  }

  private static void run(Invocation<Void> test, ExtensionContext context) throws Throwable {
    if (TRIES_MUTANTS && FOUND.add(context.getUniqueId())) {
      test.skip();
    } else {
      test.proceed();
    }
  }
}
