namespace jointrom::cli {}
