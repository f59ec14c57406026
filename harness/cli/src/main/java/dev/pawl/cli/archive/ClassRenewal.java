package dev.pawl.cli.archive;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Arrays;
import java.util.Collections;
import java.util.Map;
import java.util.TreeMap;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Opcodes;

/**
 * Brings classes to a form that a class archive takes, with the same meaning; what it does not take is loaded or made up one by one at every start. Classes
 * that were compiled for a very old Java get a newer format and the frames that belong to it; our own get their {@link RecordMethods} and
 * {@link LambdaClasses} written out. The launcher has this done once, before it makes the archive.
 */
public final class ClassRenewal {

  /** Classes of this format and later ones carry frames, which the archive asks for. */
  private static final int FIRST_WITH_FRAMES = Opcodes.V1_6;
  private static final String OUR_OWN = "dev/pawl/";
  private static final String SUFFIX = ".class";
  /** Bytes up to and with the major number of the format. */
  private static final int HEAD = 8;

  private ClassRenewal() {}

  /** Goes through the jars of the folders that are named; one that cannot be brought over stays as it is. */
  public static void main(String[] arguments) throws IOException {
    for (String folder : arguments) {
      try (DirectoryStream<Path> jars = Files.newDirectoryStream(Path.of(folder), "*.jar")) {
        jars.forEach(ClassRenewal::renewIfPossible);
      }
    }
  }

  private static void renewIfPossible(Path jar) {
    try {
      renew(jar);
    } catch (IOException | RuntimeException | LinkageError e) {
      System.err.println(jar + " stays as it is: " + e);
    }
  }

  /**
   * Puts a jar with renewed classes in the place of one that has any to be renewed.
   *
   * @return whether it had
   */
  static boolean renew(Path jar) throws IOException {
    Path copy = jar.resolveSibling(jar.getFileName() + "." + ProcessHandle.current().pid() + ".renewed");
    try (JarFile from = new JarFile(jar.toFile())) {
      Map<String, byte[]> renewed = isSigned(from) ? Map.of() : renewed(jar, from);
      if (renewed.isEmpty()) {
        return false;
      }
      try (OutputStream file = Files.newOutputStream(copy); ZipOutputStream to = new ZipOutputStream(file)) {
        for (JarEntry entry : Collections.list(from.entries())) {
          byte[] after = renewed.remove(entry.getName());
          write(to, entry.getName(), entry.getTime(), after == null ? content(from, entry) : after);
        }
        for (Map.Entry<String, byte[]> added : renewed.entrySet()) {
          write(to, added.getKey(), Files.getLastModifiedTime(jar).toMillis(), added.getValue());
        }
      }
      // Two first starts at the same time put the same file there, and the archive of either fits it.
      Files.setLastModifiedTime(copy, Files.getLastModifiedTime(jar));
      Files.move(copy, jar, StandardCopyOption.ATOMIC_MOVE);
      return true;
    } finally {
      Files.deleteIfExists(copy);
    }
  }

  private static void write(ZipOutputStream to, String name, long time, byte[] content) throws IOException {
    ZipEntry entry = new ZipEntry(name);
    entry.setTime(time);
    to.putNextEntry(entry);
    to.write(content);
    to.closeEntry();
  }

  private static boolean isSigned(JarFile jar) throws IOException {
    return jar.getManifest() != null && !jar.getManifest().getEntries().isEmpty();
  }

  /** The classes that come out different, and further ones, by the names of their entries. */
  private static Map<String, byte[]> renewed(Path jar, JarFile from) throws IOException {
    Map<String, byte[]> before = new TreeMap<>();
    for (JarEntry entry : Collections.list(from.entries())) {
      if (entry.getName().endsWith(SUFFIX)) {
        before.put(entry.getName(), content(from, entry));
      }
    }
    Map<String, byte[]> after = new TreeMap<>();
    LambdaClasses lambdas = new LambdaClasses();
    try (URLClassLoader classes = new URLClassLoader(new URL[] {jar.toUri().toURL()})) {
      before.forEach((name, bytes) -> after.put(name, isOld(bytes) ? inNewerFormat(bytes, classes)
          : name.startsWith(OUR_OWN) ? lambdas.writtenOut(RecordMethods.writtenOut(bytes)) : bytes));
    }
    after.replaceAll((name, bytes) -> lambdas.asHead(bytes));
    lambdas.made().forEach((name, bytes) -> after.put(name + SUFFIX, bytes));
    after.entrySet().removeIf(entry -> Arrays.equals(entry.getValue(), before.get(entry.getKey())));
    return after;
  }

  private static byte[] content(JarFile jar, JarEntry entry) throws IOException {
    try (var in = jar.getInputStream(entry)) {
      return in.readAllBytes();
    }
  }

  private static boolean isOld(byte[] bytes) {
    return bytes.length >= HEAD && ((bytes[HEAD - 2] & 0xFF) << Byte.SIZE | bytes[HEAD - 1] & 0xFF) < FIRST_WITH_FRAMES;
  }

  private static byte[] inNewerFormat(byte[] bytes, ClassLoader classes) {
    ClassWriter writer = new ClassWriter(ClassWriter.COMPUTE_FRAMES) {
      @Override
      protected ClassLoader getClassLoader() {
        return classes;
      }
    };
    new ClassReader(bytes).accept(new ClassVisitor(Opcodes.ASM9, writer) {
      @Override
      public void visit(int version, int access, String name, String signature, String parent, String[] interfaces) {
        super.visit(Opcodes.V1_8, access, name, signature, parent, interfaces);
      }
    }, ClassReader.SKIP_FRAMES);
    return writer.toByteArray();
  }
}
