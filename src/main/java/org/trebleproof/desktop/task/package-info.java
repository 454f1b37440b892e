/** Work that takes a while: its states, its progress, its end. Knows no window. */
package org.trebleproof.desktop.task;
