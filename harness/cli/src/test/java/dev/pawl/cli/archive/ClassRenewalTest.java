package dev.pawl.cli.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Supplier;
import java.util.jar.JarFile;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Label;
import org.objectweb.asm.MethodVisitor;
import org.objectweb.asm.Opcodes;

/** Classes of a very old format come to a newer one, what our own have made up at run time is written out, and all do what they did. */
class ClassRenewalTest {
  private static final String NOTICE = "META-INF/NOTICE";

  @TempDir
  private Path folder;
  private Path jar;

  @BeforeEach
  void nameTheJar() {
    jar = folder.resolve("old.jar");
  }

  /** A class with a method of a branch, for which the newer format wants frames: the greater of two numbers. */
  private static byte[] greater(int format) {
    ClassWriter writer = new ClassWriter(format >= Opcodes.V1_6 ? ClassWriter.COMPUTE_FRAMES : ClassWriter.COMPUTE_MAXS);
    writer.visit(format, Opcodes.ACC_PUBLIC, "Greater", null, "java/lang/Object", null);
    MethodVisitor method = writer.visitMethod(Opcodes.ACC_PUBLIC | Opcodes.ACC_STATIC, "of", "(II)I", null, null);
    Label second = new Label();
    method.visitVarInsn(Opcodes.ILOAD, 0);
    method.visitVarInsn(Opcodes.ILOAD, 1);
    method.visitJumpInsn(Opcodes.IF_ICMPLT, second);
    method.visitVarInsn(Opcodes.ILOAD, 0);
    method.visitInsn(Opcodes.IRETURN);
    method.visitLabel(second);
    method.visitVarInsn(Opcodes.ILOAD, 1);
    method.visitInsn(Opcodes.IRETURN);
    method.visitMaxs(0, 0);
    method.visitEnd();
    writer.visitEnd();
    return writer.toByteArray();
  }

  private void pack(Map<String, byte[]> entries) throws IOException {
    try (OutputStream file = Files.newOutputStream(jar); ZipOutputStream out = new ZipOutputStream(file)) {
      for (Map.Entry<String, byte[]> entry : new TreeMap<>(entries).entrySet()) {
        out.putNextEntry(new ZipEntry(entry.getKey()));
        out.write(entry.getValue());
        out.closeEntry();
      }
    }
  }

  private byte[] unpacked(String name) throws IOException {
    try (JarFile packed = new JarFile(jar.toFile()); var in = packed.getInputStream(packed.getEntry(name))) {
      return in.readAllBytes();
    }
  }

  private int greaterOf(int one, int other) throws Exception {
    try (URLClassLoader loader = new URLClassLoader(new URL[] {jar.toUri().toURL()}, null)) {
      return (int) loader.loadClass("Greater").getMethod("of", int.class, int.class).invoke(null, one, other);
    }
  }

  @Test
  void bringsOldClassesToANewerFormatAndLeavesTheRest() throws Exception {
    byte[] notice = "as it was".getBytes(StandardCharsets.UTF_8);
    pack(Map.of("Greater.class", greater(Opcodes.V1_5), NOTICE, notice));

    ClassRenewal.main(new String[] {folder.toString()});

    assertThat(new ClassReader(unpacked("Greater.class")).readUnsignedShort(6)).isEqualTo(Opcodes.V1_8);
    assertThat(greaterOf(3, 8)).isEqualTo(greaterOf(8, 3)).isEqualTo(8);
    assertThat(unpacked(NOTICE)).isEqualTo(notice);
    assertThat(folder).isDirectoryContaining(path -> path.equals(jar)).isDirectoryNotContaining(path -> !path.equals(jar));
  }

  /** Loaded from the jar alone, by a loader that knows of nothing else of ours. */
  @Test
  void writesOutWhatOurOwnClassesMakeUpAtRunTime() throws Exception {
    Map<String, byte[]> entries = new TreeMap<>();
    for (String name : new String[] {"LambdaSamples", "LambdaSamples$Inner", "LambdaSamples$Twice"}) {
      entries.put("dev/pawl/cli/archive/" + name + ".class", Compiled.named(name));
    }
    pack(entries);

    assertThat(ClassRenewal.renew(jar)).isTrue();
    try (URLClassLoader loader = new URLClassLoader(new URL[] {jar.toUri().toURL()}, null)) {
      Supplier<?> samples = (Supplier<?>) loader.loadClass(LambdaSamples.class.getName()).getConstructor().newInstance();
      assertThat(samples.get()).isEqualTo(new LambdaSamples().get());
    }
    assertThat(ClassRenewal.renew(jar)).as("a second time there is nothing left to do").isFalse();
  }

  @Test
  void leavesAJarWithNothingToRenewAlone() throws IOException {
    pack(Map.of("Greater.class", greater(Opcodes.V1_8)));
    byte[] before = Files.readAllBytes(jar);

    assertThat(ClassRenewal.renew(jar)).isFalse();
    assertThat(jar).hasBinaryContent(before);
  }

  /** What is signed would not fit its signatures any more. */
  @Test
  void leavesASignedJarAlone() throws IOException {
    String manifest = "Manifest-Version: 1.0\r\n\r\nName: Greater.class\r\nSHA-256-Digest: AAAA\r\n\r\n";
    pack(Map.of("Greater.class", greater(Opcodes.V1_5), JarFile.MANIFEST_NAME, manifest.getBytes(StandardCharsets.UTF_8)));
    byte[] before = Files.readAllBytes(jar);

    assertThat(ClassRenewal.renew(jar)).isFalse();
    assertThat(jar).hasBinaryContent(before);
  }

  @Test
  void leavesWhatItCannotReadAlone() throws IOException {
    Files.writeString(jar, "no jar");

    ClassRenewal.main(new String[] {folder.toString()});

    assertThat(jar).hasContent("no jar");
    assertThat(folder).isDirectoryNotContaining(path -> !path.equals(jar));
  }
}
