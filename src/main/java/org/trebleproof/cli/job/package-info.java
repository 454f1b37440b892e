/** Commands on a job, and the options that stand for one. */
package org.trebleproof.cli.job;
