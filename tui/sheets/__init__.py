"""The sheets of a job, one file each: what is filled in or looked at on the job screen."""
