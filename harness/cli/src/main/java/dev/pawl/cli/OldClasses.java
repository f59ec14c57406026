package dev.pawl.cli;

import java.io.IOException;
import java.io.OutputStream;
import java.net.URL;
import java.net.URLClassLoader;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Collections;
import java.util.jar.JarEntry;
import java.util.jar.JarFile;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.objectweb.asm.ClassReader;
import org.objectweb.asm.ClassVisitor;
import org.objectweb.asm.ClassWriter;
import org.objectweb.asm.Opcodes;

/**
 * Brings classes that were compiled for a very old Java to a newer class format, with the frames that belong to it, and the same code. Java takes
 * the old ones into no class archive, and loading those of the command-line parser one by one takes a good part of a start. The launcher has this done once,
 * before it makes the archive.
 */
public final class OldClasses {

  /** Classes of this format and later ones carry frames, which the archive asks for. */
  private static final int FIRST_WITH_FRAMES = Opcodes.V1_6;
  /** Bytes up to and with the major number of the format. */
  private static final int HEAD = 8;

  private OldClasses() {}

  /** Goes through the jars of the folder that is named; one that cannot be brought over stays as it is. */
  public static void main(String[] arguments) throws IOException {
    try (DirectoryStream<Path> jars = Files.newDirectoryStream(Path.of(arguments[0]), "*.jar")) {
      for (Path jar : jars) {
        try {
          renew(jar);
        } catch (IOException | RuntimeException | LinkageError e) {
          System.err.println(jar + " stays as it is: " + e);
        }
      }
    }
  }

  /**
   * Puts a jar with renewed classes in the place of one that has old ones.
   *
   * @return whether it had any
   */
  static boolean renew(Path jar) throws IOException {
    Path renewed = jar.resolveSibling(jar.getFileName() + "." + ProcessHandle.current().pid() + ".renewed");
    try (JarFile from = new JarFile(jar.toFile())) {
      if (from.getManifest() != null && !from.getManifest().getEntries().isEmpty() || !hasOldClasses(from)) {
        return false;
      }
      try (URLClassLoader classes = new URLClassLoader(new URL[] {jar.toUri().toURL()});
          OutputStream file = Files.newOutputStream(renewed);
          ZipOutputStream to = new ZipOutputStream(file)) {
        for (JarEntry entry : Collections.list(from.entries())) {
          copy(from, entry, to, classes);
        }
      }
      // Two first starts at the same time put the same file there, and the archive of either fits it.
      Files.setLastModifiedTime(renewed, Files.getLastModifiedTime(jar));
      Files.move(renewed, jar, StandardCopyOption.ATOMIC_MOVE);
      return true;
    } finally {
      Files.deleteIfExists(renewed);
    }
  }

  private static boolean hasOldClasses(JarFile jar) throws IOException {
    for (JarEntry entry : Collections.list(jar.entries())) {
      if (entry.getName().endsWith(".class")) {
        try (var in = jar.getInputStream(entry)) {
          if (isOld(in.readNBytes(HEAD))) {
            return true;
          }
        }
      }
    }
    return false;
  }

  private static byte[] content(JarFile jar, JarEntry entry) throws IOException {
    try (var in = jar.getInputStream(entry)) {
      return in.readAllBytes();
    }
  }

  private static boolean isOld(byte[] bytes) {
    return bytes.length >= HEAD && ((bytes[HEAD - 2] & 0xFF) << Byte.SIZE | bytes[HEAD - 1] & 0xFF) < FIRST_WITH_FRAMES;
  }

  private static void copy(JarFile from, JarEntry entry, ZipOutputStream to, ClassLoader classes) throws IOException {
    byte[] bytes = content(from, entry);
    ZipEntry copy = new ZipEntry(entry.getName());
    copy.setTime(entry.getTime());
    to.putNextEntry(copy);
    to.write(entry.getName().endsWith(".class") && isOld(bytes) ? renewed(bytes, classes) : bytes);
    to.closeEntry();
  }

  private static byte[] renewed(byte[] bytes, ClassLoader classes) {
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
