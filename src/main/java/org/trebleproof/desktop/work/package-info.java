/** What the window works on: the job, its verdict, the next step. Knows no stage. */
package org.trebleproof.desktop.work;
