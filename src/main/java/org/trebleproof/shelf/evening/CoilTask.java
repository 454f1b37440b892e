package org.trebleproof.shelf.evening;

import java.nio.file.Path;
import java.util.Map;
import java.util.function.Supplier;

/**
 * One coil of an evening.
 *
 * @param file that was named
 * @param name wanted for it
 * @param exact whether it must have this name; else the next free one does
 * @param content of its job, as a job file holds it; may refuse
 */
public record CoilTask(
    Path file, String name, boolean exact, Supplier<Map<String, Object>> content) {}
