package dev.pawl.cli.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.junit.jupiter.api.Test;

/** Lambda expressions that have been written out as classes give what they gave. */
class LambdaClassesTest {

  private static final String[] SAMPLES = {"LambdaSamples", "LambdaSamples$Inner", "LambdaSamples$Twice"};

  private final LambdaClasses lambdas = new LambdaClasses();

  /** By class name: the samples and all that has been made of them. */
  private Map<String, byte[]> writtenOut() throws IOException {
    Map<String, byte[]> classes = new HashMap<>();
    for (String sample : SAMPLES) {
      classes.put("dev.pawl.cli.archive." + sample, lambdas.writtenOut(Compiled.named(sample)));
    }
    classes.replaceAll((name, content) -> lambdas.asHead(content));
    lambdas.made().forEach((name, content) -> classes.put(name.replace('/', '.'), content));
    return classes;
  }

  /** Finds the classes it is given before those of the same name elsewhere. */
  private static final class Given extends ClassLoader {
    private final Map<String, byte[]> classes;

    Given(Map<String, byte[]> classes) {
      super(LambdaClassesTest.class.getClassLoader());
      this.classes = classes;
    }

    @Override
    protected Class<?> loadClass(String name, boolean resolve) throws ClassNotFoundException {
      byte[] content = classes.get(name);
      if (content == null) {
        return super.loadClass(name, resolve);
      }
      Class<?> known = findLoadedClass(name);
      return known != null ? known : defineClass(name, content, 0, content.length);
    }
  }

  @Test
  void giveWhatTheyGave() throws Exception {
    Given loader = new Given(writtenOut());
    @SuppressWarnings("unchecked")
    Supplier<List<Object>> samples = (Supplier<List<Object>>) loader.loadClass(LambdaSamples.class.getName()).getConstructor().newInstance();

    assertThat(samples.getClass()).isNotEqualTo(LambdaSamples.class);
    assertThat(samples.get()).isEqualTo(new LambdaSamples().get()).hasSize(31);
  }

  @Test
  void areNotMadeUpAtRunTimeAnyMoreButForThoseThatNeedIt() throws IOException {
    assertThat(Compiled.madeUp(Compiled.named("LambdaSamples"))).hasSizeGreaterThan(30);
    assertThat(Compiled.madeUp(lambdas.writtenOut(Compiled.named("LambdaSamples")))).containsExactlyInAnyOrder("leftAsTheyAre applyAsLong",
        "leftAsTheyAre applyAsLong", "leftAsTheyAre get", "$deserializeLambda$ get");
    assertThat(Compiled.madeUp(lambdas.writtenOut(Compiled.named("LambdaSamples$Inner")))).isEmpty();
    assertThat(Compiled.madeUp(lambdas.writtenOut(Compiled.named("LambdaSamples$Twice")))).isEmpty();
  }

  /** One that captures nothing is the same object every time, as before: nothing is made per use. */
  @Test
  void thatCaptureNothingAreMadeOnce() throws Exception {
    Map<String, byte[]> classes = writtenOut();
    Class<?> made = new Given(classes).loadClass("dev.pawl.cli.archive.LambdaSamples$Fn0");

    assertThat(made.getDeclaredFields()).singleElement().satisfies(only -> assertThat(only.getType()).isEqualTo(made));
  }

  @Test
  void areLeftAloneWhereThereAreNone() throws IOException {
    byte[] once = lambdas.writtenOut(Compiled.named("LambdaSamples$Inner"));

    assertThat(new LambdaClasses().writtenOut(once)).isSameAs(once);
    assertThat(new LambdaClasses().asHead(once)).isSameAs(once);
  }
}
